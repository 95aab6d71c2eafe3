import { circleOf } from '../../geometry/outline/make.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { lengthWords, sizeWords } from '../../params/faults/wording.js';
import type { LengthUnit } from '../../params/units.js';
import type { FlatHole, FlatPart } from '../../parts/plates/flat-part.js';
import { type OutputFile, textFile } from '../output-file.js';
import { type DxfEntity, type DxfLayer, type DxfOptions, USUAL_DXF } from './drawing.js';
import { asciiWords, dxfText } from './dxf.js';

/** One layer for each operation, in the order of the work; blends and notes are not cut. */
export const FLAT_LAYERS = [
  { name: 'DRILL', colour: 'red' },
  { name: 'ENGRAVE', colour: 'magenta' },
  { name: 'CUT_INNER', colour: 'cyan' },
  { name: 'CUT_OUTER', colour: 'white' },
  { name: 'BLEND_SEEN', colour: 'yellow' },
  { name: 'BLEND_BEHIND', colour: 'blue' },
  { name: 'NOTES', colour: 'green' },
] as const satisfies readonly DxfLayer[];

type Layer = (typeof FLAT_LAYERS)[number]['name'];

/** Height of notes, mm. */
const WORDS = 4;

/** Length of the line that shows the scale, in the drawing's unit. */
const REFERENCE = { mm: 100, in: 4 } as const;

const KIND = { flange: 'flange-drawing', plate: 'plate-drawing', gasket: 'gasket-drawing' } as const;

/**
 * A flat part as a DXF at 1:1, as it is seen in its own frame. Marks on the part are single strokes; words stand beside it, on a
 * layer that is not cut.
 */
export function flatDxf(part: FlatPart, options: DxfOptions = USUAL_DXF): OutputFile {
  const layers = FLAT_LAYERS;
  const text = dxfText({ layers, entities: [...partEntities(part), ...besides(part, options)] }, options);
  return textFile(`${part.path}.dxf`, KIND[part.kind], text);
}

const on = (layer: Layer): { readonly layer: Layer } => ({ layer });

/** How a part's own points and outlines are moved before they are drawn. */
export interface Placing {
  readonly outline: (o: Outline) => Outline;
  readonly point: (p: Vec2) => Vec2;
}

const UNMOVED: Placing = { outline: (o) => o, point: (p) => p };

/** All that is worked on a part: drilled, marked, cut inside, cut outside. */
export function partEntities(part: FlatPart, placing: Placing = UNMOVED): DxfEntity[] {
  const { outer, openings, slots, holes } = part.cut;
  const inner = [...openings.map((o) => o.outline), ...slots, ...holes.filter((h) => !h.drill).map((h) => h.outline)];
  const contour = (layer: Layer, o: Outline): DxfEntity => ({
    ...on(layer),
    kind: 'outline',
    outline: placing.outline(o),
  });
  return [
    ...holes.filter((h) => h.drill).flatMap((h) => drilled(h, placing)),
    ...part.engraving.map((line): DxfEntity => ({ ...on('ENGRAVE'), kind: 'stroke', points: line.map(placing.point) })),
    ...inner.map((o) => contour('CUT_INNER', o)),
    contour('CUT_OUTER', outer),
    ...part.blends.map(({ face, outline }) => contour(face === 'seen' ? 'BLEND_SEEN' : 'BLEND_BEHIND', outline)),
  ];
}

/** The outline of a hole to drill and its centre mark. */
function drilled({ at, outline, diameter }: FlatHole, placing: Placing): DxfEntity[] {
  const { from, to } = outlineBounds(outline);
  const arm = (diameter ?? Math.min(to[0] - from[0], to[1] - from[1])) / 4;
  const [x, y] = placing.point(at);
  return [
    { ...on('DRILL'), kind: 'outline', outline: placing.outline(outline) },
    { ...on('DRILL'), kind: 'line', from: [x - arm, y], to: [x + arm, y] },
    { ...on('DRILL'), kind: 'line', from: [x, y - arm], to: [x, y + arm] },
  ];
}

/** What is written beside the part: the way up, the reference line and the notes below. */
function besides(part: FlatPart, { units }: DxfOptions): DxfEntity[] {
  const { from, to } = outlineBounds(part.cut.outer);
  const left = from[0];
  const below = from[1] - 12;
  return [
    ...up([to[0] + 14, (from[1] + to[1]) / 2]),
    ...reference([left, below], units),
    ...notesOf(part, units).map((words, i) => text([left, below - 16 - 1.8 * WORDS * i], words)),
  ];
}

const text = (at: Vec2, words: string, align: 'left' | 'center' = 'left'): DxfEntity => ({
  ...on('NOTES'),
  kind: 'text',
  at,
  words: asciiWords(words),
  height: WORDS,
  align,
});

const line = (from: Vec2, to: Vec2): DxfEntity => ({ ...on('NOTES'), kind: 'line', from, to });

/** An arrow that points up, with its word. */
const up = ([x, y]: Vec2): DxfEntity[] => [
  line([x, y - 12], [x, y + 12]),
  line([x, y + 12], [x - 2.5, y + 6]),
  line([x, y + 12], [x + 2.5, y + 6]),
  text([x, y - 12 - 1.5 * WORDS], 'UP', 'center'),
];

/** A line of known length, on a layer that is not cut: readers ignore the unit in the header. */
export function reference([x, y]: Vec2, units: DxfOptions['units']): DxfEntity[] {
  const length = units === 'in' ? REFERENCE.in * 25.4 : REFERENCE.mm;
  return [
    line([x, y], [x + length, y]),
    line([x, y - 2], [x, y + 2]),
    line([x + length, y - 2], [x + length, y + 2]),
    text([x, y - 2 - 1.5 * WORDS], `THIS LINE IS ${REFERENCE[units]} ${units} LONG`),
  ];
}

function notesOf(part: FlatPart, units: DxfOptions['units']): string[] {
  const { size, thickness, material, mass, kerf } = part;
  const weight = mass === null ? '' : `, ${mass.toFixed(2)} kg finished`;
  return [
    `${part.title} (${part.belongs})`,
    `${lengthWords(thickness, part.units)} ${material}${weight}${part.count > 1 ? `, ${part.count} pieces` : ''}`,
    `Finished size ${sizeWords(size, units, units === 'mm' ? 2 : 1)}, 1:1, drawn in ${units}, ${part.seen}`,
    kerf.compensated
      ? `Kerf ${lengthWords(kerf.width, part.units)}: COMPENSATED, lines are the path of the cut's middle. Switch kerf off at the cutter`
      : 'Kerf: NOT COMPENSATED, lines are the finished edges. Set the kerf at the cutter',
    `Order: ${operations(part).join(', ')}. NOTES is not cut`,
    ...(part.blends.length > 0
      ? [
          'BLEND_SEEN and BLEND_BEHIND are not cut: grind the openings to them by hand at the face seen and at the one behind',
        ]
      : []),
    ...sizeRows(part),
    ...part.notes,
    ...(part.kind === 'gasket' ? [] : ['Thermal cutting: eye, lung and fire protection; follow local codes']),
  ];
}

/** Layers with something to do on a part, in the order of the work. */
function operations(part: FlatPart): string[] {
  const used = new Set(partEntities(part).map((e) => e.layer));
  const work = FLAT_LAYERS.map((l) => l.name).filter((name) => used.has(name) && !name.startsWith('BLEND'));
  return work.map((name) => (name === 'ENGRAVE' ? 'ENGRAVE (marks, not through)' : name));
}

/** One row for each size of opening, and for each size and kind of hole. */
export function sizeRows({ region, units }: FlatPart): string[] {
  const rows = [
    ...region.openings.map((o) => `opening ${openingSize(o.outline, units)}`),
    ...region.holes.map((h) => `${h.words}, ${h.drill ? 'drill' : 'cut'}`),
  ];
  return [...new Set(rows)].map((row) => `${rows.filter((r) => r === row).length} x ${row}`);
}

function openingSize(outline: Outline, units: LengthUnit): string {
  const circle = circleOf(outline);
  if (circle !== null) return `${lengthWords(circle.diameter, units, 2)} round`;
  const { from, to } = outlineBounds(outline);
  return sizeWords([to[0] - from[0], to[1] - from[1]], units, 2);
}
