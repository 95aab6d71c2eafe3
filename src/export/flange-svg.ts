import { outlineBounds } from '../geometry/outline-measure.js';
import { add2, distance2, lerp2, scale2, sub2, unit2, type Vec2 } from '../geometry/vec2.js';
import type { FlangePart } from '../parts/flange.js';
import type { OutputFile } from './output-file.js';
import { plainNumber } from './plain-number.js';
import { svgPath } from './svg-path.js';

/** Space round the flange for dimensions and words, mm. */
const MARGIN = { left: 14, right: 26, top: 18, bottom: 34 } as const;

/** From line to line of words, and the width of one letter in the mean, mm. */
const LEADING = 5.5;
const LETTER = 2.1;

const STYLE = [
  'text{font-family:sans-serif;font-size:4px;fill:#222}',
  '.outer{fill:#e9edf1;stroke:#111;stroke-width:.5;fill-rule:evenodd}',
  '.inner{fill:#fff;stroke:#0b5cad;stroke-width:.5;stroke-dasharray:4 1}',
  '.drill{fill:#fff;stroke:#b3261e;stroke-width:.5;stroke-dasharray:1.2 .8}',
  '.mark{fill:none;stroke:#b3261e;stroke-width:.25}',
  '.axis{fill:none;stroke:#777;stroke-width:.2;stroke-dasharray:6 1.5 1 1.5}',
  '.size{fill:none;stroke:#444;stroke-width:.2}',
  '.tip{fill:#444;stroke:none}',
  '.cylinder{font-size:7px;fill:#0b5cad;stroke:#fff;stroke-width:2px;paint-order:stroke}',
  '.title{font-size:5.5px;font-weight:bold}',
].join('');

/** The flange as a dimensioned picture in mm, seen from the tubes: colours are told apart by their dashes too. */
export function flangeSvg(part: FlangePart): OutputFile {
  const { from, to } = outlineBounds(part.region.outer);
  const above = headLines(part);
  const below = part.notes;
  const x = from[0] - MARGIN.left;
  const top = to[1] + MARGIN.top + LEADING * above.length;
  const wordy = Math.max(...[...above, ...below].map((w) => w.length)) * LETTER + MARGIN.left;
  const width = Math.max(part.size[0] + MARGIN.left + MARGIN.right, wordy, 130);
  const height = top - from[1] + MARGIN.bottom + LEADING * below.length;
  const left = x + MARGIN.left;
  const lines = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}mm" height="${mm(height)}mm" viewBox="${[x, -top, width, height].map(mm).join(' ')}">`,
    `<title>${escaped(part.title)}</title>`,
    `<style>${STYLE}</style>`,
    `<rect x="${mm(x)}" y="${mm(-top)}" width="${mm(width)}" height="${mm(height)}" fill="#fff"/>`,
    `<path class="outer" d="${svgPath(part.region.outer)}"/>`,
    ...part.region.openings.map((o) => `<path class="inner" d="${svgPath(o.outline)}"/>`),
    ...part.region.bolts.map((b) => hole(b.at, b.diameter, b.drill)),
    ...axes(part),
    ...part.region.openings.map((o) => text(middleOf(o.outline), String(o.cylinder), 'cylinder', 'middle', 2.4)),
    ...sizes(part),
    text([left, top - 9], part.title, 'title'),
    ...above.map((words, i) => text([left, top - 9 - LEADING * (i + 1)], words)),
    ...legend(part, left, from[1] - 26),
    ...below.map((note, i) => text([left, from[1] - 27 - LEADING * (i + 1)], note)),
    '</svg>',
  ];
  return { path: `${part.name}.svg`, kind: 'picture', bytes: new TextEncoder().encode(`${lines.join('\n')}\n`) };
}

const mm = (value: number): number => plainNumber(value, 4);

const escaped = (words: string): string =>
  words.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');

function text(at: Vec2, words: string, style = '', anchor = 'start', drop = 0): string {
  const kind = style === '' ? '' : ` class="${style}"`;
  return `<text${kind} x="${mm(at[0])}" y="${mm(-at[1] + drop)}" text-anchor="${anchor}">${escaped(words)}</text>`;
}

const line = (a: Vec2, b: Vec2, style: string): string =>
  `<line class="${style}" x1="${mm(a[0])}" y1="${mm(-a[1])}" x2="${mm(b[0])}" y2="${mm(-b[1])}"/>`;

function hole(at: Vec2, diameter: number, drill: boolean): string {
  const circle = `<circle class="${drill ? 'drill' : 'inner'}" cx="${mm(at[0])}" cy="${mm(-at[1])}" r="${mm(diameter / 2)}"/>`;
  if (!drill) return circle;
  const arm = diameter / 2 + 1.5;
  return [
    circle,
    line(add2(at, [-arm, 0]), add2(at, [arm, 0]), 'mark'),
    line(add2(at, [0, -arm]), add2(at, [0, arm]), 'mark'),
  ].join('');
}

function middleOf(outline: FlangePart['region']['outer']): Vec2 {
  const { from, to } = outlineBounds(outline);
  return lerp2(from, to, 0.5);
}

/** Centre lines through every opening, a little beyond it. */
function axes(part: FlangePart): string[] {
  return part.region.openings.flatMap((o) => {
    const { from, to } = outlineBounds(o.outline);
    const [cx, cy] = lerp2(from, to, 0.5);
    return [line([from[0] - 4, cy], [to[0] + 4, cy], 'axis'), line([cx, from[1] - 4], [cx, to[1] + 4], 'axis')];
  });
}

/** Overall size and the pitch of the ports. */
function sizes(part: FlangePart): string[] {
  const { from, to } = outlineBounds(part.region.outer);
  const middles = part.region.openings.map((o) => middleOf(o.outline)).sort((a, b) => a[0] - b[0]);
  const low = from[1] - 7;
  return [
    ...middles.slice(1).flatMap((m, i) => between([middles[i]![0], low], [m[0], low])),
    ...(middles.length > 1 ? middles : []).map((m) => line([m[0], from[1] - 2], [m[0], low - 1.5], 'size')),
    ...between([from[0], low - 8], [to[0], low - 8]),
    ...[from[0], to[0]].map((x) => line([x, from[1] + 4], [x, low - 9.5], 'size')),
    ...between([to[0] + 8, from[1]], [to[0] + 8, to[1]]),
    ...[from[1], to[1]].map((y) => line([to[0] - 4, y], [to[0] + 9.5, y], 'size')),
  ];
}

/** A dimension line with a tip at each end and its length in mm. */
function between(a: Vec2, b: Vec2): string[] {
  const length = distance2(a, b);
  if (length < 1e-6) return [];
  const middle = lerp2(a, b, 0.5);
  const upright = Math.abs(b[0] - a[0]) < 1e-9;
  const words = length.toFixed(1);
  const label = upright
    ? `<text x="${mm(middle[0] - 1.2)}" y="${mm(-middle[1])}" text-anchor="middle" transform="rotate(-90 ${mm(middle[0] - 1.2)} ${mm(-middle[1])})">${words}</text>`
    : text(middle, words, '', 'middle', -1.2);
  return [line(a, b, 'size'), tip(a, b), tip(b, a), label];
}

/** A filled arrow head at a, pointing away from b. */
function tip(a: Vec2, b: Vec2): string {
  const back = scale2(unit2(sub2(b, a)), 2.4);
  const across = scale2([-back[1], back[0]], 0.18);
  const corners = [a, add2(add2(a, back), across), sub2(add2(a, back), across)];
  return `<polygon class="tip" points="${corners.map((c) => `${mm(c[0])},${mm(-c[1])}`).join(' ')}"/>`;
}

function headLines(part: FlangePart): string[] {
  return [
    `${part.thickness} mm ${part.material}, ${part.mass.toFixed(2)} kg`,
    part.kerf.compensated
      ? `the cut file is moved by half a kerf of ${part.kerf.width} mm`
      : 'the cut file is the finished size: set the kerf at the cutter',
    'seen from the tubes; finished sizes in mm',
  ];
}

function legend(part: FlangePart, x: number, y: number): string[] {
  const rows: readonly (readonly [string, string])[] = [
    ['outer', 'outer cut'],
    ['inner', 'inner cut'],
    ...(part.region.bolts.some((b) => b.drill) ? [['drill', 'drill'] as const] : []),
  ];
  return rows.flatMap(([style, label], i) => [
    line([x + i * 38, y + 1.3], [x + 10 + i * 38, y + 1.3], style),
    text([x + 12 + i * 38, y], label),
  ]);
}
