import { outlineBounds } from '../../geometry/outline/measure.js';
import { lerp2, type Vec2 } from '../../geometry/vec2.js';
import { cutContour, seamLine } from '../../parts/patterns/cut-contour.js';
import type { Pattern, PatternLine } from '../../parts/patterns/pattern.js';
import { type OutputFile, textFile } from '../output-file.js';
import { labelOn, patternWords } from '../pattern-words.js';
import { plainNumber } from '../plain-number.js';
import { xmlText } from '../xml-text.js';
import { strokePath, svgPath } from './svg-path.js';

/** White all round, from line to line of words, and the mean width of a letter, mm. */
const MARGIN = 10;
const LEADING = 5.2;
const LETTER = 1.95;

/** Length of the line that shows the scale, mm. */
const RULER = 100;

const STYLE = [
  'text{font-family:sans-serif;font-size:3.6px;fill:#222}',
  '.title{font-size:5.5px;font-weight:bold}',
  '.scale{font-weight:bold}',
  '.label{font-size:2.8px;stroke:#fff;stroke-width:1px;paint-order:stroke}',
  '.outer{fill:#f4f6f8;stroke:#000;stroke-width:.35}',
  '.inner{fill:#fff;stroke:#0b5cad;stroke-width:.35;stroke-dasharray:4 1}',
  '.seam{fill:none;stroke:#000;stroke-width:.25;stroke-dasharray:1 1}',
  '.reference{fill:none;stroke:#b3261e;stroke-width:.5}',
  '.quarter{fill:none;stroke:#0b5cad;stroke-width:.2;stroke-dasharray:6 1.5 1 1.5}',
  '.bend{fill:none;stroke:#777;stroke-width:.15;stroke-dasharray:3 1.5}',
  '.guide{fill:none;stroke:#2e7d32;stroke-width:.4}',
  '.tip{fill:#2e7d32}',
  '.ruler{fill:none;stroke:#000;stroke-width:.25}',
].join('');

/** A pattern as a picture at true size: printed at 100 % it is the pattern. Lines are told apart by their dashes too. */
export function patternSvg(pattern: Pattern): OutputFile {
  const contour = cutContour(pattern);
  const { from, to } = outlineBounds(contour);
  const seam = seamLine(pattern);
  const words = [...patternWords(pattern)];
  const wordy = Math.max(...words.map((w) => w.length * LETTER), pattern.title.length * 3.2);
  const width = Math.max(to[0] - from[0], RULER, wordy) + 2 * MARGIN;
  const head = MARGIN + 8;
  const foot = 24 + LEADING * (words.length + 1) + MARGIN;
  const box = [from[0] - MARGIN, -to[1] - head, width, to[1] - from[1] + head + foot].map(mm);
  const below = from[1] - 12;
  const lines = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${box[2]}mm" height="${box[3]}mm" viewBox="${box.join(' ')}">`,
    `<title>${xmlText(pattern.title)}</title>`,
    `<style>${STYLE}</style>`,
    `<rect x="${box[0]}" y="${box[1]}" width="${box[2]}" height="${box[3]}" fill="#fff"/>`,
    text([from[0], to[1] + 6], pattern.title, 'title'),
    `<path class="outer" d="${svgPath(contour)}"/>`,
    ...pattern.holes.map((h) => `<path class="inner" d="${svgPath(h)}"/>`),
    ...(seam === null ? [] : [`<path class="seam" d="${strokePath(seam)}"/>`]),
    ...pattern.lines.map(stroke),
    ...(pattern.tab === null ? [] : [tabWord(pattern)]),
    ...pattern.lines.filter((l) => l.label !== '').map((l) => labelOf(l, from[0])),
    ...ruler([from[0], below]),
    ...words.map((row, i) => text([from[0], below - 14 - LEADING * i], row)),
    '</svg>',
  ];
  return textFile(`patterns/${pattern.name}.svg`, 'pattern', `${lines.join('\n')}\n`);
}

const mm = (value: number): number => plainNumber(value, 4);

const text = (at: Vec2, words: string, style = ''): string =>
  `<text${style === '' ? '' : ` class="${style}"`} x="${mm(at[0])}" y="${mm(-at[1])}">${xmlText(words)}</text>`;

function stroke({ kind, points }: PatternLine): string {
  const path = `<path class="${kind}" d="${strokePath(points)}"/>`;
  return kind === 'guide' ? path + tip(points.at(-2)!, points.at(-1)!) : path;
}

/** A filled arrow head at b. */
function tip(a: Vec2, b: Vec2): string {
  const l = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ux, uy] = [((b[0] - a[0]) * 3.5) / l, ((b[1] - a[1]) * 3.5) / l];
  const corners = [b, [b[0] - ux + uy / 4, b[1] - uy - ux / 4], [b[0] - ux - uy / 4, b[1] - uy + ux / 4]];
  return `<polygon class="tip" points="${corners.map(([x, y]) => `${mm(x!)},${mm(-y!)}`).join(' ')}"/>`;
}

/** Words along a line, beside its middle, read from the right or from below; inside the pattern where the line lies on its left end. */
function labelOf(line: PatternLine, left: number): string {
  const { points } = line;
  const [a, b] = [points[0]!, points.at(-1)!];
  const onEdge = Math.max(a[0], b[0]) < left + 4;
  const middle = lerp2(a, b, 0.5);
  const turn = (-Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
  const upright = turn > 90 ? turn - 180 : turn <= -90 - 1e-9 ? turn + 180 : turn;
  return `<text class="label" text-anchor="middle" x="0" y="${onEdge ? 3.2 : -1}" transform="translate(${mm(middle[0])} ${mm(-middle[1])}) rotate(${mm(upright)})">${xmlText(labelOn(line, 1.55))}</text>`;
}

/** The word on the tab, along the seam. */
function tabWord({ tab }: Pattern): string {
  const { from, to } = outlineBounds(tab!);
  const [x, y] = lerp2(from, to, 0.5);
  return `<text class="label" text-anchor="middle" x="0" y="1" transform="translate(${mm(x)} ${mm(-y)}) rotate(-90)">tab</text>`;
}

/** A line of known length with a tick every ten millimetres, and what it is for. */
function ruler([x, y]: Vec2): string[] {
  const ticks = Array.from({ length: RULER / 10 + 1 }, (_, i) => {
    const tall = i % 5 === 0 ? 3 : 1.8;
    return `M ${mm(x + 10 * i)} ${mm(-y)} v ${-tall}`;
  });
  return [
    `<path class="ruler" d="M ${mm(x)} ${mm(-y)} h ${RULER} ${ticks.join(' ')}"/>`,
    text([x, y - 5], `Print at 100 %, not fitted to the page: this line must measure ${RULER} mm`, 'scale'),
  ];
}
