/**
 * Paper. Nothing may be wider than the page: a browser would then shrink the whole document, and patterns would lose their size. So
 * every box clips what is wider, and a tile has a fixed size in mm whatever it holds. The page names no paper of its own: a browser
 * scales a page made for one paper to fit another.
 */
export const PRINT_STYLE = `
@page{margin:10mm}
@media print{
html,body{background:#fff}
body{font-size:9.5pt;line-height:1.35}
.top,.contents,.skip,.on-screen,.view-host,button{display:none!important}
.on-paper{display:block}
main{padding:0;max-width:none;margin:0}
h1{font-size:24pt}
h2{font-size:14pt;padding-top:5pt;border-top-width:2pt;break-after:avoid}
h3{font-size:10.5pt;margin:10pt 0 3pt;break-after:avoid}
p{max-width:none}
section{margin-top:18pt}
a{color:inherit;text-decoration:none}
.scroll{overflow:clip;max-height:none}
.line-plot{overflow:clip;break-inside:avoid}.line-plot svg{width:100%;max-width:150mm;height:auto}
table{font-size:7.6pt;min-width:0;max-width:100%}
th,td{padding:2pt 5pt 2pt 0}
thead th{font-size:7pt}
tbody th{white-space:normal}
h3+p{break-after:avoid}
tr,figure,.facts,.figures>div,.findings li,.plots{break-inside:avoid}
thead{display:table-header-group}
caption{break-after:avoid}
.where{min-width:0}
svg.gap{width:32mm;height:auto}
.plots{grid-template-columns:1fr 1fr;gap:4mm}
.figures{grid-template-columns:repeat(6,1fr)}
.figures .value{font-size:17pt}.figures .unit{font-size:8pt}
.paper{border-color:#bbb;overflow:clip}
.overview .paper img,.paper img{min-width:0;max-width:100%;max-height:225mm;object-fit:contain}
details:not(.on-screen):not([open])::details-content{content-visibility:visible;block-size:auto}
summary{list-style:none;color:inherit;font-weight:600;break-after:avoid}
summary::-webkit-details-marker{display:none}
.pair{grid-template-columns:auto auto;justify-content:start;gap:0 8mm}
pre{border:0;padding:0;font-size:7pt;line-height:1.3;max-height:none;overflow:visible;white-space:pre-wrap;overflow-wrap:anywhere}
.tile{break-before:page;break-inside:avoid;width:190mm;height:258mm;contain:size;overflow:hidden}
.tile img{display:block}
*{print-color-adjust:exact;-webkit-print-color-adjust:exact}
:root[data-printing="patterns"] main>:not(#patterns){display:none!important}
:root[data-printing="patterns"] #patterns>h2{display:none}
}
`;
