import { inches } from '../../params/units.js';
import { fixed, lengthWords, type Units } from '../sheets/sheet-numbers.js';
import { type Html, html } from './html.js';

/** A tube as the plot shows it, mm. */
export interface PlottedLength {
  readonly name: string;
  readonly length: number;
  readonly target: number;
}

const WIDTH = 440;
const LABEL = 96;
const ROW = 30;
const TOP = 34;
const FOOT = 30;
const RIGHT = 16;

const n = (x: number): string => String(Math.round(x * 100) / 100);

/**
 * Every tube against its target, twice: the whole length from zero, and the difference alone, drawn so large that the tolerance shows.
 * `id` tells the plots of one page apart.
 */
export const lengthsPlot = (id: string, tubes: readonly PlottedLength[], tolerance: number, units: Units): Html =>
  html`<figure class="plots">${wholeLengths(tubes, units)}${differences(id, tubes, tolerance, units)}</figure>
`;

/** Bars from zero with a mark at the target. */
function wholeLengths(tubes: readonly PlottedLength[], units: Units): Html {
  const most = Math.max(...tubes.flatMap((t) => [t.length, t.target]));
  const x = (mm: number): number => LABEL + (mm / most) * (WIDTH - LABEL - RIGHT);
  const rows = tubes.map((t, i) => {
    const y = TOP + i * ROW;
    return html`<g><text class="name" x="0" y="${n(y + 19)}">${t.name}</text><rect class="bar" x="${LABEL}" y="${n(y + 5)}" width="${n(x(t.length) - LABEL)}" height="${ROW - 10}"/><text class="in-bar" x="${LABEL + 8}" y="${n(y + 19.5)}">${lengthWords(t.length, 3, units)}</text><path class="target" d="M${n(x(t.target))} ${n(y + 1)}v${ROW - 2}"/></g>`;
  });
  return plot(
    `Whole length of ${count(tubes)}, from zero, with the target marked`,
    'Whole length, from zero',
    tubes.length,
    html`${rows}<text class="axis-words" x="${LABEL}" y="${n(TOP + tubes.length * ROW + 18)}">0</text><text class="axis-words end" x="${WIDTH - RIGHT}" y="${n(TOP + tubes.length * ROW + 18)}">${lengthWords(most, 1, units)}</text>`,
  );
}

/** The difference from the target on its own scale, over the band that is allowed. */
function differences(id: string, tubes: readonly PlottedLength[], tolerance: number, units: Units): Html {
  const edge = units === 'in' ? fixed(inches(tolerance), 5) : fixed(tolerance, 3);
  const off = tubes.map((t) => t.length - t.target);
  const span = Math.max(1.6 * tolerance, ...off.map((d) => 1.15 * Math.abs(d)), 1e-6);
  const room = WIDTH - LABEL - RIGHT - 62;
  const x = (mm: number): number => LABEL + room / 2 + (mm / span) * (room / 2);
  const bottom = TOP + tubes.length * ROW;
  const rows = tubes.map((t, i) => {
    const y = TOP + i * ROW + ROW / 2;
    const held = Math.abs(off[i]!) <= tolerance + 1e-9;
    const at = x(off[i]!);
    const mark = held
      ? html`<path class="mark" d="M${n(at)} ${n(y - 7)}l7 7l-7 7l-7 -7z"/>`
      : html`<path class="mark out" d="M${n(at - 6)} ${n(y - 6)}l12 12m0 -12l-12 12"/>`;
    return html`<g><text class="name" x="0" y="${n(y + 4)}">${t.name}</text><path class="grid" d="M${LABEL} ${n(y)}H${n(LABEL + room)}"/>${mark}<text class="end" x="${WIDTH - RIGHT + 8}" y="${n(y + 4)}">${signed(off[i]!, units)}</text></g>`;
  });
  const band = `hatch-${id}`;
  return plot(
    `Difference of ${count(tubes)} from the target; the band is plus and minus ${lengthWords(tolerance, 3, units)}`,
    `Difference from the target, ${units}`,
    tubes.length,
    html`<defs><pattern id="${band}" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="hatch" d="M0 0V7"/></pattern></defs>
<rect class="band" x="${n(x(-tolerance))}" y="${TOP}" width="${n(x(tolerance) - x(-tolerance))}" height="${n(bottom - TOP)}"/><rect x="${n(x(-tolerance))}" y="${TOP}" width="${n(x(tolerance) - x(-tolerance))}" height="${n(bottom - TOP)}" fill="url(#${band})"/>
<path class="target" d="M${n(x(0))} ${TOP - 4}V${n(bottom + 4)}"/>${rows}
<text class="axis-words middle" x="${n(x(-tolerance))}" y="${n(bottom + 18)}">−${edge}</text><text class="axis-words middle" x="${n(x(0))}" y="${n(bottom + 18)}">0</text><text class="axis-words middle" x="${n(x(tolerance))}" y="${n(bottom + 18)}">+${edge}</text>`,
  );
}

const plot = (label: string, title: string, rows: number, body: Html): Html =>
  html`<svg class="plot" viewBox="0 0 ${WIDTH} ${TOP + rows * ROW + FOOT}" width="${WIDTH}" height="${TOP + rows * ROW + FOOT}" role="img" aria-label="${label}"><text class="plot-title" x="0" y="16">${title}</text>${body}</svg>
`;

const count = (tubes: readonly PlottedLength[]): string => `${tubes.length} ${tubes.length === 1 ? 'tube' : 'tubes'}`;

/** A difference in mm with its sign in the plan's unit, three digits, of inches five. */
export const signed = (value: number, units: Units): string => {
  const text = units === 'in' ? fixed(inches(value), 5) : fixed(value, 3);
  return Number(text) > 0 ? `+${text}` : text.replace('-', '−');
};
