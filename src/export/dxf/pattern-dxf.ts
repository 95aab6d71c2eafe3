import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { cutContour, seamLine } from '../../parts/patterns/cut-contour.js';
import type { Pattern, PatternLine } from '../../parts/patterns/pattern.js';
import { type OutputFile, textFile } from '../output-file.js';
import { patternWords } from '../pattern-words.js';
import { type DxfEntity, type DxfLayer, type DxfOptions, USUAL_DXF } from './drawing.js';
import { asciiWords, dxfText } from './dxf.js';
import { reference } from './flat-dxf.js';

/** Only CUT_INNER and CUT_OUTER are cut. */
export const PATTERN_LAYERS = [
  { name: 'CUT_INNER', colour: 'cyan' },
  { name: 'CUT_OUTER', colour: 'white' },
  { name: 'SEAM', colour: 'yellow' },
  { name: 'REFERENCE', colour: 'red' },
  { name: 'QUARTER', colour: 'blue' },
  { name: 'BEND', colour: 'magenta' },
  { name: 'NOTES', colour: 'green' },
] as const satisfies readonly DxfLayer[];

type Layer = (typeof PATTERN_LAYERS)[number]['name'];

const LAYER_OF: Readonly<Record<PatternLine['kind'], Layer>> = {
  reference: 'REFERENCE',
  quarter: 'QUARTER',
  bend: 'BEND',
  guide: 'NOTES',
};

/** Height of words beside the pattern and on its lines, mm. */
const WORDS = { beside: 4, on: 2.5 } as const;

/** A pattern as a DXF at 1:1: the contour with its tab on CUT_OUTER, everything that is only marked on layers of its own. */
export function patternDxf(pattern: Pattern, options: DxfOptions = USUAL_DXF): OutputFile {
  const contour = cutContour(pattern);
  const seam = seamLine(pattern);
  const [left, bottom] = outlineBounds(contour).from;
  const below: Vec2 = [left, bottom - 12];
  const rows = [pattern.title, ...patternWords(pattern), 'NOTES, SEAM, REFERENCE, QUARTER and BEND are not cut'];
  const entities: DxfEntity[] = [
    ...pattern.holes.map((outline): DxfEntity => ({ layer: 'CUT_INNER', kind: 'outline', outline })),
    { layer: 'CUT_OUTER', kind: 'outline', outline: contour },
    ...(seam === null ? [] : [{ layer: 'SEAM', kind: 'line', from: seam[0], to: seam[1] } as const]),
    ...pattern.lines.flatMap(markOf),
    ...reference(below, options.units),
    ...rows.map((words, i) => text([left, below[1] - 16 - 1.8 * WORDS.beside * i], words, WORDS.beside)),
  ];
  const file = dxfText({ layers: PATTERN_LAYERS, entities }, options);
  return textFile(`patterns/${pattern.name}.dxf`, 'pattern', file);
}

const text = (at: Vec2, words: string, height: number): DxfEntity => ({
  layer: 'NOTES',
  kind: 'text',
  at,
  words: asciiWords(words),
  height,
});

/** What stands on the pattern itself is what comes before the colon: the rest is told in the rows below. */
const shortLabel = (label: string): string => label.split(':')[0]!;

function markOf({ kind, points, label }: PatternLine): DxfEntity[] {
  const layer = LAYER_OF[kind];
  const [x, y] = points[0]!;
  return [
    { layer, kind: 'stroke', points },
    ...(kind === 'guide' ? arrowHead(points) : []),
    ...(label === '' ? [] : [text([x + 1.2, y + 2], shortLabel(label), WORDS.on)]),
  ];
}

/** The head of an arrow at the last of points. */
function arrowHead(points: readonly Vec2[]): DxfEntity[] {
  const [a, b] = [points.at(-2)!, points.at(-1)!];
  const l = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ux, uy] = [((b[0] - a[0]) * 4) / l, ((b[1] - a[1]) * 4) / l];
  const side = (way: number): Vec2 => [b[0] - ux + (way * uy) / 3, b[1] - uy - (way * ux) / 3];
  return [{ layer: 'NOTES', kind: 'stroke', points: [side(1), b, side(-1)] }];
}
