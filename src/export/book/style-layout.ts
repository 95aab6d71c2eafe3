/** Words, tables and where things stand, from a telephone's width up. */
export const LAYOUT_STYLE = `
*{box-sizing:border-box}
html{scroll-padding-top:6.5rem;-webkit-text-size-adjust:100%}
body{margin:0;background:var(--ground);color:var(--ink);font:1rem/1.5 system-ui,-apple-system,"Segoe UI",Roboto,"Liberation Sans",sans-serif;font-variant-numeric:tabular-nums}
a{color:var(--accent);text-underline-offset:.15em}
:focus-visible{outline:3px solid var(--accent);outline-offset:2px}
main:focus-visible{outline:none}
.skip{position:absolute;left:-99rem}
.skip:focus{left:1rem;top:.5rem;z-index:30;background:var(--raised);padding:.5rem 1rem}
code{font-family:ui-monospace,"Cascadia Mono","DejaVu Sans Mono",Menlo,monospace;font-size:.9em}
code.long{overflow-wrap:anywhere}
h1{font-size:clamp(1.9rem,1.3rem + 2.4vw,3.1rem);line-height:1.1;letter-spacing:-.02em;font-weight:650;margin:.2em 0 .4em;overflow-wrap:anywhere}
h2{font-size:1.55rem;line-height:1.2;letter-spacing:-.01em;font-weight:600;margin:0 0 1rem;padding-top:1.1rem;border-top:3px solid var(--ink)}
h3{font-size:1.08rem;font-weight:600;margin:1.8rem 0 .5rem}
p,main ul li{max-width:44rem}p{margin:.6rem 0}
.good{color:var(--good)}.bad{color:var(--bad)}.warn{color:var(--warn)}
.unit,.inch,.note{color:var(--quiet)}

.top{position:sticky;top:0;z-index:20;display:flex;align-items:center;gap:.8rem;height:3rem;padding:0 1rem;background:var(--ground);border-bottom:1px solid var(--line)}
.top .name{flex:1;min-width:0;white-space:nowrap;overflow:hidden;text-overflow:ellipsis;font-weight:600}
.top .tools{display:flex;gap:.4rem}
.mark{display:inline-grid;gap:3px;width:22px}
.mark i{height:2px;background:var(--ink)}.mark i:nth-child(2){background:repeating-linear-gradient(90deg,var(--ink) 0 6px,transparent 6px 8px)}.mark i:nth-child(4){background:repeating-linear-gradient(90deg,var(--ink) 0 2px,transparent 2px 4px)}
button{font:inherit;font-size:.88rem;color:var(--ink);background:var(--raised);border:1px solid var(--quiet);border-radius:3px;padding:.3rem .7rem;min-height:2.1rem;cursor:pointer}
button:hover{border-color:var(--accent);color:var(--accent)}
.top button[hidden]{display:inline-block;visibility:hidden}

.contents{position:sticky;top:3rem;z-index:15;background:var(--ground);border-bottom:1px solid var(--line);overflow-x:auto;scrollbar-width:thin}
.contents ol{display:flex;gap:.1rem;list-style:none;margin:0;padding:0 .6rem}
.contents a{display:block;padding:.55rem .6rem;white-space:nowrap;font-size:.9rem;text-decoration:none;color:var(--quiet);border-bottom:3px solid transparent}
.contents a:hover{color:var(--accent)}
.contents a[aria-current]{color:var(--ink);border-color:var(--accent)}
main{padding:1.2rem 1rem 4rem;min-width:0;max-width:76rem;margin:0 auto}
section{margin-top:3.2rem}
header.title{margin:0}
.verdict{font-size:1.12rem;color:var(--ink);border-left:6px solid currentColor;padding:.1rem 0 .1rem .9rem;max-width:none}
.verdict.good{border-color:var(--good)}.verdict.bad{border-color:var(--bad);border-left-style:double}
.verdict.good strong{color:var(--good)}.verdict.bad strong{color:var(--bad)}
.verdict strong{display:block;font-size:1.3rem}
.hash{color:var(--quiet);font-size:.9rem}
footer{margin-top:3rem;border-top:1px solid var(--line);color:var(--quiet);font-size:.9rem}

.scroll{overflow-x:auto;max-width:100%;scrollbar-width:thin}
table{border-collapse:collapse;font-size:.93rem;min-width:min(100%,30rem)}
caption{text-align:left;color:var(--quiet);font-size:.88rem;padding:.2rem 0 .4rem}
caption.heard{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
th,td{padding:.36rem .8rem .36rem 0;border-bottom:1px solid var(--line);vertical-align:top;text-align:left;font-weight:400}
thead th{color:var(--quiet);font-size:.84rem;line-height:1.25;vertical-align:bottom;border-bottom:2px solid var(--ink)}
thead .unit{display:block;min-height:1.25em}
th.number,td.number{text-align:right;white-space:nowrap}
tbody th{white-space:nowrap}
@media screen{tbody th,thead th:first-child{position:sticky;left:0;background:var(--ground);z-index:1}}
.line-plot{margin:1rem 0;overflow-x:auto;max-width:100%;scrollbar-width:thin}.line-plot svg{display:block}
@media (max-width:34rem){table{width:max-content;min-width:100%}tbody th{white-space:normal;max-width:10.5rem}td.words{max-width:12rem}}
.key{font-weight:650}
td>.good,td>.bad{white-space:nowrap}
tbody tr:hover{background:color-mix(in srgb,var(--accent) 7%,transparent)}
.where{display:block;min-width:14rem;color:var(--quiet);font-size:.9em}
.inch{font-size:.88em}
details{margin:.6rem 0}
summary{cursor:pointer;color:var(--accent);padding:.3rem 0}
pre{margin:0;padding:1rem;background:var(--raised);border:1px solid var(--line);font-size:.86rem;line-height:1.45;max-height:32rem;overflow:auto}
.findings{list-style:none;margin:0;padding:0}
.findings li{border-left:4px solid currentColor;padding:.1rem 0 .1rem .9rem;margin:0 0 1.1rem}
.findings li.bad{border-left-style:double;border-left-width:6px}
.findings li>*{color:var(--ink)}.findings li>strong.bad{color:var(--bad)}.findings li>strong.warn{color:var(--warn)}
.findings p{margin:.2rem 0}.findings .mend::before{content:"→ ";color:var(--quiet)}.findings .mend{color:var(--quiet)}
.findings code{color:var(--quiet)}
.findings .place{overflow-wrap:anywhere}
.cautions{max-width:48rem;padding-left:1.6rem}.cautions li{margin:.5rem 0;list-style:"▲ "}.cautions li::marker{color:var(--warn)}
.files dt{font-weight:600;margin-top:.7rem}.files dd{margin:0;overflow-wrap:anywhere}.files a{display:inline-block;padding:.2rem .4rem .2rem 0}
@media screen{.on-paper{display:none}}
@media (max-width:34rem){.top .tools [data-print]{display:none!important}}
@media (min-width:48rem){main{padding:1.6rem 2rem 4rem}}
@media (min-width:72rem){
html{scroll-padding-top:4rem}
.frame{display:grid;grid-template-columns:14rem minmax(0,1fr);max-width:96rem;margin:0 auto}
.contents{align-self:start;height:calc(100vh - 3rem);overflow:auto;border:0;padding:1.4rem 0}
.contents ol{display:block;padding:0 0 0 1rem}
.contents a{padding:.32rem .8rem;white-space:normal;border-bottom:0;border-left:3px solid transparent}
main{margin:0;padding:1.6rem 2.5rem 5rem}
}
`;
