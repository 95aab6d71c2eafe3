/** Large numbers, plots, drawings and the room of the solid view. */
export const FIGURE_STYLE = `
.figures{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,9.6rem),1fr));gap:1.2rem 1.6rem;margin:1.6rem 0;padding:1rem 0;border:solid var(--line);border-width:1px 0}
.figures dt{font-size:.88rem;color:var(--quiet)}
.figures dd{margin:0}
.figures .value{font-size:clamp(1.9rem,1.5rem + 1.5vw,2.7rem);line-height:1.15;font-weight:300;letter-spacing:-.02em}
.figures .unit{font-size:1rem}
.figures .note{display:block;font-size:.84rem;line-height:1.35}
.figures .good .value::before{content:"✓";font-size:.55em;color:var(--good);margin-right:.25em;vertical-align:.25em}
.figures .bad .value::before{content:"✕";font-size:.55em;color:var(--bad);margin-right:.25em;vertical-align:.25em}
.figures .bad .value{color:var(--bad)}
.figures .warn .value{color:var(--ink)}
.figures .warn .value::before{content:"▲";font-size:.45em;color:var(--warn);margin-right:.3em;vertical-align:.4em}
@media (max-width:34rem){.figures{grid-template-columns:1fr 1fr}}
.facts{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,19rem),1fr));gap:0 2.2rem;margin:.6rem 0}
.facts>div{display:flex;justify-content:space-between;gap:1rem;border-bottom:1px solid var(--line);padding:.3rem 0}
.facts dd{margin:0;font-weight:600;text-align:right;white-space:nowrap}.facts dd .unit{font-weight:400}.facts dt{color:var(--quiet)}
figure{margin:1rem 0}
figcaption{color:var(--quiet);font-size:.88rem;margin-top:.4rem;overflow-wrap:anywhere}
.plots{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,22rem),1fr));gap:1.2rem 2rem}
.plot{width:100%;height:auto;max-width:36rem;display:block}
.plot text{fill:var(--ink);font-size:14px}
.plot .plot-title{font-weight:600}
.plot .axis-words{fill:var(--quiet);font-size:12px}.plot .end{text-anchor:end}.plot .middle{text-anchor:middle}
.plot .in-bar{fill:#fff;font-weight:600}
.plot .bar{fill:#1f6a99}
.plot .target{stroke:var(--ink);stroke-width:1.6;stroke-dasharray:5 3;fill:none}
.plot .body{fill:var(--raised);stroke:var(--ink);stroke-width:1.4}.plot .edge{fill:none;stroke:var(--ink);stroke-width:1.2}
.plot .bore{fill:none;stroke:var(--quiet);stroke-width:1.1;stroke-dasharray:4 3}.plot .centre{fill:none;stroke:var(--quiet);stroke-width:1;stroke-dasharray:12 3 3 3}
.plot .size{fill:none;stroke:var(--quiet);stroke-width:1}
.plot .grid{stroke:var(--line);fill:none}
.plot .band{fill:var(--band);stroke:var(--good);stroke-width:1}
.plot .hatch{stroke:var(--good);stroke-width:1;opacity:.45}
.plot .mark{fill:var(--ink);stroke:var(--ground);stroke-width:1.5}
.plot .mark.out{fill:none;stroke:var(--bad);stroke-width:3}
svg.gap{display:block}
svg.defs{position:absolute}
.hatch{stroke:var(--bad);stroke-width:1.4;opacity:.7}
.gap .limit{stroke:var(--ink);stroke-width:1.6}
.gap .bar,.gap .arrow{fill:var(--bar)}
.gap.fail .bar{fill:var(--bad)}
.paper{background:#fff;border:1px solid var(--line);width:fit-content}
.paper img{display:block;height:auto}
.overview .paper img{width:100%;min-width:44rem}
.view-host{min-height:min(70vh,110vw)}
@media (min-width:76rem){.view-host{min-height:min(82vh,860px)}}
select{font:inherit;color:var(--ink);background:var(--raised);border:1px solid var(--quiet);border-radius:3px;padding:.3rem .5rem;min-height:2.1rem}
.pair{display:grid;gap:0 2.5rem;grid-template-columns:minmax(0,1fr)}
@media (min-width:90rem){.pair{grid-template-columns:minmax(0,1fr) auto}}
@media screen{.for-paper{display:none}}
`;
