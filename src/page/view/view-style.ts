import { element } from './element.js';
import { THEME_STYLE } from './theme-style.js';

export const VIEW_STYLE = `
.ev-view { container-type: inline-size; color: var(--ink); background: var(--ground); font: 15px/1.45 system-ui, sans-serif; }
.ev-body { display: grid; gap: 12px; grid-template-columns: minmax(0, 1fr); }
.ev-view [hidden] { display: none !important; }
.ev-stage { position: relative; height: min(70vh, 110vw); min-height: 300px; overflow: hidden; border: 1px solid var(--line);
  border-radius: 4px; background: var(--raised, var(--ground)); contain: strict; }
.ev-canvas { display: block; width: 100%; height: 100%; cursor: grab; outline-offset: -3px; }
.ev-canvas:active { cursor: grabbing; }
.ev-canvas.ev-measuring { cursor: crosshair; }
.ev-no-webgl { position: absolute; inset: 0; margin: auto; height: fit-content; padding: 24px; text-align: center; max-width: 46ch; }
.ev-labels { position: absolute; inset: 0; pointer-events: none; }
.ev-label { position: absolute; left: 0; top: 0; white-space: nowrap; font-size: 12px; line-height: 1; padding: 2px 5px; border-radius: 3px;
  background: var(--raised, var(--ground)); color: var(--ink); border: 1px solid var(--line); font-variant-numeric: tabular-nums; }
.ev-label-tube { font-size: 15px; font-weight: 700; padding: 3px 7px; border: 2px solid var(--mark, var(--ink)); }
.ev-label-mark { font-size: 13px; font-weight: 600; border-color: var(--ink); }
.ev-label-joint { color: var(--quiet); background: none; border: 0;
  text-shadow: 0 0 3px var(--ground), 0 0 3px var(--ground), 0 0 3px var(--ground); }
.ev-panel { display: grid; gap: 10px; grid-template-columns: minmax(0, 1fr); align-items: start; }
.ev-group { margin: 0; border: 1px solid var(--line); border-radius: 4px; padding: 6px 12px 12px; min-width: 0; }
.ev-group legend { font-weight: 600; padding: 0 4px; }
.ev-row { display: flex; flex-wrap: wrap; gap: 6px; margin-top: 6px; }
.ev-view button, .ev-view select { font: inherit; color: var(--ink); background: var(--raised, var(--ground)); border: 1px solid var(--quiet);
  border-radius: 4px; min-height: 36px; padding: 4px 12px; cursor: pointer; }
.ev-view select { max-width: 100%; min-width: 0; flex: 1; text-overflow: ellipsis; }
.ev-view button:hover { border-color: var(--accent); color: var(--accent); }
.ev-view button[aria-pressed="true"] { background: var(--accent); border-color: var(--accent); color: var(--ground); }
.ev-view :focus-visible { outline: 3px solid var(--accent); outline-offset: 1px; }
.ev-view input[type="range"] { width: 100%; min-height: 28px; margin: 0; accent-color: var(--accent); }
.ev-view input[type="checkbox"] { width: 20px; height: 20px; margin: 0; accent-color: var(--accent); flex: none; }
.ev-field { display: flex; align-items: center; gap: 8px; margin: 4px 0; }
.ev-field label { min-width: 4.6em; color: var(--quiet); }
.ev-checks { display: grid; grid-template-columns: repeat(auto-fill, minmax(150px, 1fr)); gap: 2px 10px; }
.ev-check { display: flex; align-items: center; gap: 8px; min-height: 32px; }
.ev-count { color: var(--quiet); font-variant-numeric: tabular-nums; }
.ev-large { display: block; font-size: 30px; line-height: 1.2; font-weight: 600; font-variant-numeric: tabular-nums; }
.ev-note { margin: 0 0 8px; color: var(--quiet); }
.ev-said { display: block; min-height: 1.45em; margin-top: 6px; font-variant-numeric: tabular-nums; }
.ev-readings { display: grid; grid-template-columns: auto 1fr; gap: 2px 12px; margin: 6px 0; }
.ev-readings dt, .ev-help dt { color: var(--quiet); }
.ev-readings dd, .ev-help dd { margin: 0; text-align: right; font-variant-numeric: tabular-nums; font-weight: 500; }
.ev-parts h4 { margin: 8px 0 4px; font-size: inherit; font-weight: 600; }
.ev-parts ul { list-style: none; margin: 0; padding: 0; display: flex; flex-wrap: wrap; gap: 4px; }
.ev-parts button { min-height: 32px; padding: 2px 8px; }
.ev-swatch { width: 34px; height: 22px; flex: none; border-radius: 3px; background-color: var(--mark); --w: rgb(255 255 255 / .5); }
.ev-swatch[data-pattern="rings"] { background-image: repeating-linear-gradient(90deg, var(--w) 0 2px, transparent 2px 9px); }
.ev-swatch[data-pattern="spiral"] { background-image: repeating-linear-gradient(60deg, var(--w) 0 2px, transparent 2px 9px); }
.ev-swatch[data-pattern="stripes"] { background-image: repeating-linear-gradient(0deg, var(--w) 0 2px, transparent 2px 7px); }
.ev-help { margin-top: 8px; }
.ev-help summary { cursor: pointer; min-height: 28px; color: var(--quiet); }
.ev-help p { margin: 4px 0; }
.ev-help dl { display: grid; grid-template-columns: auto 1fr; gap: 2px 12px; margin: 0; }
@container (min-width: 640px) {
  .ev-panel { grid-template-columns: repeat(2, minmax(0, 1fr)); }
  .ev-panel > :nth-child(2) { grid-column: 2; grid-row: 1 / span 3; }
}
@container (min-width: 900px) {
  .ev-panel > :nth-child(2) { grid-column: auto; grid-row: auto; }
  .ev-body { grid-template-columns: minmax(0, 1fr) 372px; }
  .ev-stage, .ev-panel { height: min(82vh, 860px); }
  .ev-panel { grid-template-columns: minmax(0, 1fr); overflow-y: auto; align-content: start; padding-right: 4px; }
}
@media print { .ev-panel { display: none; } }
`;

/** Puts the styles into the page, once; the page's own colours go before ours. */
export function addViewStyle(): void {
  if (document.getElementById('ev-style')) return;
  const own = getComputedStyle(document.documentElement).getPropertyValue('--ground') !== '';
  document.head.append(element('style', { id: 'ev-style' }, (own ? '' : THEME_STYLE) + VIEW_STYLE));
}
