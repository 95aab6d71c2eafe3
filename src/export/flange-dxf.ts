import type { Outline } from '../geometry/outline.js';
import { circleOutline } from '../geometry/outline-make.js';
import { outlineBounds } from '../geometry/outline-measure.js';
import { lerp2, type Vec2 } from '../geometry/vec2.js';
import type { FlangePart } from '../parts/flange.js';
import type { FlangeHole } from '../parts/flange-region.js';
import { asciiWords, type DxfEntity, type DxfLayer, dxfText } from './dxf.js';
import type { OutputFile } from './output-file.js';

/** One layer for each operation, in the order of the work. */
export const FLANGE_LAYERS = [
  { name: 'DRILL', colour: 'red' },
  { name: 'CUT_INNER', colour: 'cyan' },
  { name: 'CUT_OUTER', colour: 'white' },
  { name: 'NOTES', colour: 'green' },
] as const satisfies readonly DxfLayer[];

type Layer = (typeof FLANGE_LAYERS)[number]['name'];

/** Height of notes and of cylinder numbers, mm. */
const WORDS = 4;
const NUMBERS = 8;

/** Length of the line that shows the scale, mm. */
const REFERENCE = 100;

/** The flange as a DXF at 1:1 in mm, in the frame of its head face, seen from the tubes; words stand only on a layer that is not cut. */
export function flangeDxf(part: FlangePart): OutputFile {
  const text = dxfText({
    layers: FLANGE_LAYERS,
    entities: [...cuts(part), ...part.cut.bolts.flatMap(hole), ...marks(part)],
  });
  return { path: `${part.name}.dxf`, kind: 'flange-drawing', bytes: new TextEncoder().encode(text) };
}

const on = (layer: Layer): { readonly layer: Layer } => ({ layer });

function cuts(part: FlangePart): DxfEntity[] {
  return [
    ...part.cut.openings.map((o): DxfEntity => ({ ...on('CUT_INNER'), kind: 'outline', outline: o.outline })),
    { ...on('CUT_OUTER'), kind: 'outline', outline: part.cut.outer },
  ];
}

/** A hole to cut, or the circle and centre mark of one to drill. */
function hole(bolt: FlangeHole): DxfEntity[] {
  const { at, diameter } = bolt;
  if (!bolt.drill) return [{ ...on('CUT_INNER'), kind: 'outline', outline: circleOutline(at, diameter) }];
  const arm = diameter / 4;
  return [
    { ...on('DRILL'), kind: 'circle', centre: at, diameter },
    { ...on('DRILL'), kind: 'line', from: [at[0] - arm, at[1]], to: [at[0] + arm, at[1]] },
    { ...on('DRILL'), kind: 'line', from: [at[0], at[1] - arm], to: [at[0], at[1] + arm] },
  ];
}

/** All that is written: numbers in the openings, the way up, the reference line and the notes below the flange. */
function marks(part: FlangePart): DxfEntity[] {
  const { from, to } = outlineBounds(part.cut.outer);
  const left = from[0];
  const below = from[1] - 12;
  const notes = notesOf(part).map((words, i): DxfEntity => text([left, below - 16 - 1.8 * WORDS * i], words, WORDS));
  return [
    ...part.cut.openings.map((o) => {
      const [x, y] = middleOf(o.outline);
      return text([x, y - NUMBERS / 2], String(o.cylinder), NUMBERS, 'center');
    }),
    ...up([to[0] + 14, (from[1] + to[1]) / 2]),
    ...reference([left, below]),
    ...notes,
  ];
}

const text = (at: Vec2, words: string, height: number, align: 'left' | 'center' = 'left'): DxfEntity => ({
  ...on('NOTES'),
  kind: 'text',
  at,
  words: asciiWords(words),
  height,
  align,
});

const line = (from: Vec2, to: Vec2): DxfEntity => ({ ...on('NOTES'), kind: 'line', from, to });

function middleOf(outline: Outline): Vec2 {
  const { from, to } = outlineBounds(outline);
  return lerp2(from, to, 0.5);
}

/** An arrow that points up, with its word. */
const up = ([x, y]: Vec2): DxfEntity[] => [
  line([x, y - 12], [x, y + 12]),
  line([x, y + 12], [x - 2.5, y + 6]),
  line([x, y + 12], [x + 2.5, y + 6]),
  text([x, y - 12 - 1.5 * WORDS], 'UP', WORDS, 'center'),
];

const reference = ([x, y]: Vec2): DxfEntity[] => [
  line([x, y], [x + REFERENCE, y]),
  line([x, y - 2], [x, y + 2]),
  line([x + REFERENCE, y - 2], [x + REFERENCE, y + 2]),
  text([x, y - 2 - 1.5 * WORDS], `THIS LINE IS ${REFERENCE} mm LONG`, WORDS),
];

function notesOf(part: FlangePart): string[] {
  const { size, thickness, material, mass, kerf } = part;
  const drilled = part.region.bolts.some((b) => b.drill);
  return [
    `${part.title} (head: ${part.headName})`,
    `${thickness} mm ${material}, ${mass.toFixed(2)} kg finished`,
    `Finished size ${size[0].toFixed(2)} x ${size[1].toFixed(2)} mm, 1:1, drawn in mm, seen from the tubes`,
    kerf.compensated
      ? `Kerf ${kerf.width} mm: COMPENSATED, lines are the path of the cut's middle. Switch kerf off at the cutter`
      : 'Kerf: NOT COMPENSATED, lines are the finished edges. Set the kerf at the cutter',
    `Order: ${drilled ? 'DRILL, ' : ''}CUT_INNER, CUT_OUTER. NOTES is not cut`,
    ...holeRows(part.region.bolts),
    ...part.notes,
    'Thermal cutting: eye, lung and fire protection; follow local codes',
  ];
}

/** One row for each size and kind of hole. */
function holeRows(bolts: readonly FlangeHole[]): string[] {
  const rows = bolts.map((b) => `${b.diameter.toFixed(2)} mm for ${b.thread}, ${b.drill ? 'drill' : 'cut'}`);
  return [...new Set(rows)].map((row) => `${rows.filter((r) => r === row).length} holes ${row}`);
}
