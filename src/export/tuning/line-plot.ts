import { plainNumber } from '../plain-number.js';
import { xmlText } from '../xml-text.js';
import { type Axis, axisFor, ticksOf } from './plot-axis.js';

/** A plot of lines over one axis. */
export interface LinePlot {
  readonly title: string;
  readonly x: PlotScale;
  readonly y: PlotScale;
  readonly lines: readonly PlotLine[];
  /** Stretches of the x axis that mean something: the overlap, the band of an engine. */
  readonly bands?: readonly { readonly from: number; readonly to: number; readonly label: string }[];
  /** Values of y that mean something: a target, zero. */
  readonly levels?: readonly { readonly at: number; readonly label: string }[];
}

export interface PlotScale {
  readonly label: string;
  readonly unit: string;
  /** Kept in sight beside the lines' own values. */
  readonly include?: readonly number[];
}

export interface PlotLine {
  readonly label: string;
  readonly points: readonly (readonly [x: number, y: number])[];
}

const WIDTH = 820;
const HEIGHT = 400;
const LEGEND = 262;
const FRAME = { left: 66, right: WIDTH - LEGEND, top: 34, bottom: HEIGHT - 48 };

/** Colours that people with any colour vision tell apart on light and dark (M. Okabe and K. Ito, 2008), each with a dash pattern of its own. */
export const STROKES: readonly (readonly [colour: string, dash: string])[] = [
  ['#0072b2', ''],
  ['#d55e00', '8 4'],
  ['#009e73', '2 3'],
  ['#cc79a7', '10 3 2 3'],
  ['#e69f00', '5 3'],
  ['#56b4e9', '12 4 2 4 2 4'],
];

/** Light and dark for a picture that stands alone; in a page it takes the colour of the page's words. */
const ALONE =
  '<style>svg{color:#1c1c1c}.ground{fill:#fff}@media(prefers-color-scheme:dark){svg{color:#e6e6e6}.ground{fill:#16181c}}</style>';

/**
 * A plot as SVG: axes with units, lines told apart by colour and dash, their names beside them. Words and axes take the
 * colour of the text around; `alone` gives it colours of its own for a file. Throws RangeError where there is nothing to plot or a value is no number.
 */
export function linePlot(plot: LinePlot, alone = false): string {
  const all = plot.lines.flatMap((l) => l.points);
  if (all.length === 0) throw new RangeError(`nothing to plot: ${plot.title}`);
  const x = axisFor([...all.map(([v]) => v), ...(plot.x.include ?? [])], FRAME.left, FRAME.right, 'tight');
  const levels = (plot.levels ?? []).map((l) => l.at);
  const y = axisFor([...all.map(([, v]) => v), ...levels, ...(plot.y.include ?? [])], FRAME.bottom, FRAME.top, 'round');
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" role="img" aria-label="${xmlText(plot.title)}" font-family="system-ui, sans-serif" font-size="12" fill="currentColor"${alone ? '' : ' color="inherit"'}>`,
    ...(alone ? [ALONE, `<rect class="ground" width="${WIDTH}" height="${HEIGHT}"/>`] : []),
    `<title>${xmlText(plot.title)}</title>`,
    text(FRAME.left, 18, plot.title, 'start', ' font-weight="600" font-size="14"'),
    ...bandShapes(plot, x),
    ...gridLines(plot, x, y),
    ...plot.lines.map((l, i) => lineShape(l, i, x, y)),
    ...legend(plot.lines),
    '</svg>',
  ].join('\n');
}

const at = (value: number): string => String(plainNumber(value, 1));

const text = (x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end', more = ''): string =>
  `<text x="${at(x)}" y="${at(y)}" text-anchor="${anchor}"${more}>${xmlText(words)}</text>`;

function bandShapes({ bands = [] }: LinePlot, x: Axis): string[] {
  const { top, bottom, left, right } = FRAME;
  return bands.flatMap(({ from, to, label }) => {
    const [a, b] = [x.place(from), x.place(to)].map((v) => Math.min(Math.max(v, left), right)) as [number, number];
    if (b - a < 0.5) return [];
    return [
      `<rect x="${at(a)}" y="${top}" width="${at(b - a)}" height="${bottom - top}" fill="currentColor" opacity="0.1"/>`,
      text((a + b) / 2, top + 14, label, 'middle', ' font-size="11"'),
    ];
  });
}

function gridLines(plot: LinePlot, x: Axis, y: Axis): string[] {
  const { left, right, top, bottom } = FRAME;
  const line = (x1: number, y1: number, x2: number, y2: number, more: string): string =>
    `<line x1="${at(x1)}" y1="${at(y1)}" x2="${at(x2)}" y2="${at(y2)}" stroke="currentColor"${more}/>`;
  const faint = ' opacity="0.18"';
  return [
    ...ticksOf(x).flatMap(({ value, label }) => [
      line(x.place(value), top, x.place(value), bottom, faint),
      text(x.place(value), bottom + 16, label, 'middle'),
    ]),
    ...ticksOf(y).flatMap(({ value, label }) => [
      line(left, y.place(value), right, y.place(value), faint),
      text(left - 6, y.place(value) + 4, label, 'end'),
    ]),
    ...(plot.levels ?? []).flatMap(({ at: v, label }) => [
      line(left, y.place(v), right, y.place(v), ' stroke-width="1" stroke-dasharray="1 3"'),
      text(right - 4, y.place(v) - 4, label, 'end', ' font-size="11"'),
    ]),
    line(left, bottom, right, bottom, ''),
    line(left, top, left, bottom, ''),
    text((left + right) / 2, bottom + 38, `${plot.x.label}, ${plot.x.unit}`, 'middle'),
    text(
      0,
      0,
      `${plot.y.label}, ${plot.y.unit}`,
      'middle',
      ` transform="translate(16 ${(top + bottom) / 2}) rotate(-90)"`,
    ),
  ];
}

const strokeOf = (i: number): string => {
  const [colour, dash] = STROKES[i % STROKES.length]!;
  return `stroke="${colour}" stroke-width="2.2"${dash === '' ? '' : ` stroke-dasharray="${dash}"`}`;
};

const lineShape = ({ points }: PlotLine, i: number, x: Axis, y: Axis): string =>
  `<polyline fill="none" ${strokeOf(i)} stroke-linejoin="round" points="${points.map(([a, b]) => `${at(x.place(a))},${at(y.place(b))}`).join(' ')}"/>`;

function legend(lines: readonly PlotLine[]): string[] {
  const x = FRAME.right + 16;
  return lines.flatMap(({ label }, i) => {
    const y = FRAME.top + 10 + i * 22;
    return [`<line x1="${x}" y1="${y}" x2="${x + 34}" y2="${y}" ${strokeOf(i)}/>`, text(x + 42, y + 4, label, 'start')];
  });
}
