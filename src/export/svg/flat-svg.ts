import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { add2, distance2, lerp2, scale2, sub2, unit2, type Vec2 } from '../../geometry/vec2.js';
import { lengthWords } from '../../params/faults/wording.js';
import { inches, type LengthUnit } from '../../params/units.js';
import { middleOf } from '../../parts/plates/engraving.js';
import type { FlatHole, FlatPart } from '../../parts/plates/flat-part.js';
import { sizeRows } from '../dxf/flat-dxf.js';
import { type OutputFile, textFile } from '../output-file.js';
import { plainNumber } from '../plain-number.js';
import { xmlText } from '../xml-text.js';
import { strokePath, svgPath } from './svg-path.js';

/** Space round the part for dimensions and words, mm. */
const MARGIN = { left: 14, right: 34, top: 18, bottom: 42 } as const;

/** From line to line of words, and the width of one letter in the mean, mm. */
const LEADING = 5.5;
const LETTER = 2.1;

/** Smallest pitch that has room for its dimension, mm. */
const LEAST_PITCH = 12;

const STYLE = [
  'text{font-family:sans-serif;font-size:4px;fill:#222}',
  '.outer{fill:#e9edf1;stroke:#111;stroke-width:.5;fill-rule:evenodd}',
  '.inner{fill:#fff;stroke:#0b5cad;stroke-width:.5;stroke-dasharray:4 1}',
  '.drill{fill:#fff;stroke:#b3261e;stroke-width:.5;stroke-dasharray:1.2 .8}',
  '.engrave{fill:none;stroke:#6b2fa0;stroke-width:.3;stroke-linecap:round;stroke-linejoin:round}',
  '.seen{fill:none;stroke:#8a6d00;stroke-width:.35;stroke-dasharray:6 .8}',
  '.behind{fill:none;stroke:#2e7d32;stroke-width:.35;stroke-dasharray:.8 .8}',
  '.mark{fill:none;stroke:#b3261e;stroke-width:.25}',
  '.axis{fill:none;stroke:#777;stroke-width:.2;stroke-dasharray:6 1.5 1 1.5}',
  '.size{fill:none;stroke:#444;stroke-width:.2}',
  '.tip{fill:#444;stroke:none}',
  '.label{font-size:7px;fill:#0b5cad;stroke:#fff;stroke-width:2px;paint-order:stroke}',
  '.title{font-size:5.5px;font-weight:bold}',
].join('');

/** A flat part as a dimensioned picture in mm: colours are told apart by their dashes too. */
export function flatSvg(part: FlatPart): OutputFile {
  const { outer, openings, slots, holes } = part.region;
  const { from, to } = outlineBounds(outer);
  const above = headLines(part);
  const below = [...sizeRows(part), ...part.notes];
  const x = from[0] - MARGIN.left;
  const top = to[1] + MARGIN.top + LEADING * above.length;
  const wordy = Math.max(...[...above, ...below].map((w) => w.length)) * LETTER + MARGIN.left;
  const width = Math.max(part.size[0] + MARGIN.left + MARGIN.right, wordy, part.title.length * LETTER * 1.5, 130);
  const height = top - from[1] + MARGIN.bottom + LEADING * below.length;
  const left = x + MARGIN.left;
  const lines = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}mm" height="${mm(height)}mm" viewBox="${[x, -top, width, height].map(mm).join(' ')}">`,
    `<title>${xmlText(part.title)}</title>`,
    `<style>${STYLE}</style>`,
    `<rect x="${mm(x)}" y="${mm(-top)}" width="${mm(width)}" height="${mm(height)}" fill="#fff"/>`,
    `<path class="outer" d="${svgPath(outer)}"/>`,
    ...[...openings.map((o) => o.outline), ...slots].map((o) => `<path class="inner" d="${svgPath(o)}"/>`),
    ...holes.map(hole),
    ...axes(openings.map((o) => o.outline)),
    ...part.blends.map((b) => `<path class="${b.face}" d="${svgPath(b.outline)}"/>`),
    ...part.engraving.map((stroke) => `<path class="engrave" d="${strokePath(stroke)}"/>`),
    ...openings.filter((o) => o.label !== '').map((o) => text(middleOf(o.outline), o.label, 'label', 'middle', 2.4)),
    ...sizes(part),
    text([left, top - 9], part.title, 'title'),
    ...above.map((words, i) => text([left, top - 9 - LEADING * (i + 1)], words)),
    ...legend(part, left, from[1] - 34),
    ...below.map((note, i) => text([left, from[1] - 35 - LEADING * (i + 1)], note)),
    '</svg>',
  ];
  return textFile(`${part.path}.svg`, 'picture', `${lines.join('\n')}\n`);
}

const mm = (value: number): number => plainNumber(value, 4);

function text(at: Vec2, words: string, style = '', anchor = 'start', drop = 0): string {
  const kind = style === '' ? '' : ` class="${style}"`;
  return `<text${kind} x="${mm(at[0])}" y="${mm(-at[1] + drop)}" text-anchor="${anchor}">${xmlText(words)}</text>`;
}

const line = (a: Vec2, b: Vec2, style: string): string =>
  `<line class="${style}" x1="${mm(a[0])}" y1="${mm(-a[1])}" x2="${mm(b[0])}" y2="${mm(-b[1])}"/>`;

function hole({ at, outline, drill }: FlatHole): string {
  const path = `<path class="${drill ? 'drill' : 'inner'}" d="${svgPath(outline)}"/>`;
  if (!drill) return path;
  const { from, to } = outlineBounds(outline);
  const arm = (to[0] - from[0]) / 2 + 1.5;
  return [
    path,
    line(add2(at, [-arm, 0]), add2(at, [arm, 0]), 'mark'),
    line(add2(at, [0, -arm]), add2(at, [0, arm]), 'mark'),
  ].join('');
}

/** Centre lines through every opening, a little beyond it. */
function axes(openings: readonly Outline[]): string[] {
  return openings.flatMap((o) => {
    const { from, to } = outlineBounds(o);
    const [cx, cy] = lerp2(from, to, 0.5);
    return [line([from[0] - 4, cy], [to[0] + 4, cy], 'axis'), line([cx, from[1] - 4], [cx, to[1] + 4], 'axis')];
  });
}

/** Overall size, the pitch of the openings, and of the bolts of a plate. */
function sizes({ region, kind, units }: FlatPart): string[] {
  const between = (a: Vec2, b: Vec2): string[] => sizeLine(a, b, units);
  const { from, to } = outlineBounds(region.outer);
  const openings = region.openings.map((o) => middleOf(o.outline));
  const bolts = kind === 'flange' ? [] : region.holes.map((h) => h.at);
  const across = [openings, bolts].map((points) => apart(points.map((p) => p[0]))).filter((row) => row.length > 1);
  const upwards = [openings, bolts].map((points) => apart(points.map((p) => p[1]))).filter((row) => row.length > 1);
  const low = from[1] - 7 - 8 * across.length;
  const right = to[0] + 8 + 8 * upwards.length;
  return [
    ...across.flatMap((xs, row) => {
      const y = from[1] - 7 - 8 * row;
      const spans = xs.slice(1).flatMap((x, i) => between([xs[i]!, y], [x, y]));
      return [...spans, ...xs.map((x) => line([x, from[1] - 2], [x, y - 1.5], 'size'))];
    }),
    ...upwards.flatMap((ys, column) => {
      const x = to[0] + 8 + 8 * column;
      const spans = ys.slice(1).flatMap((y, i) => between([x, ys[i]!], [x, y]));
      return [...spans, ...ys.map((y) => line([to[0] + 2, y], [x + 1.5, y], 'size'))];
    }),
    ...between([from[0], low], [to[0], low]),
    ...[from[0], to[0]].map((x) => line([x, from[1] + 4], [x, low - 1.5], 'size')),
    ...between([right, from[1]], [right, to[1]]),
    ...[from[1], to[1]].map((y) => line([to[0] - 4, y], [right + 1.5, y], 'size')),
  ];
}

/** Values in order, those too near the one before left out; none when fewer than two stay. */
function apart(values: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  const kept = sorted.filter((v, i) => i === 0 || v - sorted[i - 1]! > 1e-6);
  return kept.length > 1 && kept.every((v, i) => i === 0 || v - kept[i - 1]! >= LEAST_PITCH) ? kept : [];
}

/** A dimension line with a tip at each end and its length in the plan's unit. */
function sizeLine(a: Vec2, b: Vec2, units: LengthUnit): string[] {
  const length = distance2(a, b);
  if (length < 1e-6) return [];
  const middle = lerp2(a, b, 0.5);
  const upright = Math.abs(b[0] - a[0]) < 1e-9;
  const words = units === 'in' ? inches(length).toFixed(3) : length.toFixed(1);
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

function headLines(part: FlatPart): string[] {
  const weight = part.mass === null ? '' : `, ${part.mass.toFixed(2)} kg`;
  return [
    `${lengthWords(part.thickness, part.units)} ${part.material}${weight}${part.count > 1 ? `, ${part.count} pieces` : ''}`,
    part.kerf.compensated
      ? `the cut file is moved by half a kerf of ${lengthWords(part.kerf.width, part.units)}`
      : 'the cut file is the finished size: set the kerf at the cutter',
    `${part.belongs}; ${part.seen}; finished sizes in ${part.units === 'in' ? 'inches' : 'mm'}`,
  ];
}

function legend({ region, engraving, blends }: FlatPart, x: number, y: number): string[] {
  const inner = [...region.openings, ...region.slots].length > 0 || region.holes.some((h) => !h.drill);
  const rows: readonly (readonly [string, string])[] = [
    ['outer', 'outer cut'],
    ...(inner ? [['inner', 'inner cut'] as const] : []),
    ...(region.holes.some((h) => h.drill) ? [['drill', 'drill'] as const] : []),
    ...(engraving.length > 0 ? [['engrave', 'mark'] as const] : []),
    ...(blends.length > 0
      ? ([
          ['seen', 'blend, this face'],
          ['behind', 'blend, behind'],
        ] as const)
      : []),
  ];
  let at = x;
  return rows.flatMap(([style, label]) => {
    const from = at;
    at += 16 + label.length * LETTER;
    return [line([from, y + 1.3], [from + 10, y + 1.3], style), text([from + 12, y], label)];
  });
}
