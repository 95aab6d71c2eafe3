import Drawing from 'dxf-writer';
import handle from 'dxf-writer/src/Handle.js';
import type { Outline } from '../geometry/outline.js';
import { circleOf, splitArcs } from '../geometry/outline-make.js';
import { outlineBounds } from '../geometry/outline-measure.js';
import { validateOutline } from '../geometry/outline-valid.js';
import type { Vec2 } from '../geometry/vec2.js';
import { plainNumber } from './plain-number.js';

/** AutoCAD colour numbers that every reader shows alike. */
export const DXF_COLOUR = { red: 1, yellow: 2, green: 3, cyan: 4, blue: 5, magenta: 6, white: 7 } as const;

export interface DxfLayer {
  /** Capitals, digits, _ and -, 31 at most: what every reader takes. */
  readonly name: string;
  readonly colour: keyof typeof DXF_COLOUR;
}

interface OnLayer {
  readonly layer: string;
}

/** What a drawing can hold, mm. A closed outline is written as a circle where it is one, else as one closed polyline of lines and arcs. */
export type DxfEntity = OnLayer &
  (
    | { readonly kind: 'outline'; readonly outline: Outline }
    | { readonly kind: 'circle'; readonly centre: Vec2; readonly diameter: number }
    | { readonly kind: 'line'; readonly from: Vec2; readonly to: Vec2 }
    | {
        readonly kind: 'arc';
        readonly centre: Vec2;
        readonly radius: number;
        /** Counter-clockwise from start to end, rad. */
        readonly start: number;
        readonly end: number;
      }
    | { readonly kind: 'point'; readonly at: Vec2 }
    | {
        readonly kind: 'text';
        /** Left end, middle or right end of the line the words stand on. */
        readonly at: Vec2;
        readonly words: string;
        /** mm. */
        readonly height: number;
        readonly align?: 'left' | 'center' | 'right';
      }
  );

/** A flat drawing in mm at 1:1. */
export interface DxfDrawing {
  readonly layers: readonly DxfLayer[];
  readonly entities: readonly DxfEntity[];
}

/** Arcs of polylines are split to this, rad: some readers draw bulges beyond a quarter wrong. */
const MOST_ARC = Math.PI / 2;

/** Flatter bulges are written as straight: 1 m of it rises by 0.5 um. */
const LEAST_BULGE = 1e-6;

/**
 * The drawing as the text of an ASCII DXF (AC1021, $INSUNITS 4: mm), the same bytes for the same drawing. Group codes:
 * Autodesk DXF reference. Throws RangeError for numbers that are not finite, outlines that cross themselves, unknown or badly
 * named layers and words beyond printable ASCII.
 */
export function dxfText(drawing: DxfDrawing): string {
  checkLayers(drawing);
  // The library counts handles through the whole process; begun anew, the same drawing gives the same file.
  handle.seed = 0;
  const writer = new Drawing();
  writer.setUnits('Millimeters');
  writer.header('MEASUREMENT', [[70, 1]]);
  const extents = extentsOf(drawing.entities);
  writer.header('EXTMIN', corner(extents.from));
  writer.header('EXTMAX', corner(extents.to));
  for (const layer of drawing.layers) writer.addLayer(layer.name, DXF_COLOUR[layer.colour], 'CONTINUOUS');
  for (const entity of drawing.entities) {
    writer.setActiveLayer(entity.layer);
    draw(writer, entity);
  }
  return `${inOrder(writer.toDxfString())}\n`;
}

const mm = (value: number): number => plainNumber(value, 6);

const corner = (p: Vec2): [number, number][] => [
  [10, mm(p[0])],
  [20, mm(p[1])],
  [30, 0],
];

function draw(writer: Drawing, e: DxfEntity): void {
  switch (e.kind) {
    case 'outline': {
      const circle = circleOf(e.outline);
      if (circle === null) drawOutline(writer, e.outline);
      else draw(writer, { kind: 'circle', layer: e.layer, ...circle });
      return;
    }
    case 'circle':
      writer.drawCircle(mm(e.centre[0]), mm(e.centre[1]), positive(e.diameter / 2));
      return;
    case 'line':
      writer.drawLine(mm(e.from[0]), mm(e.from[1]), mm(e.to[0]), mm(e.to[1]));
      return;
    case 'arc':
      writer.drawArc(mm(e.centre[0]), mm(e.centre[1]), positive(e.radius), inDegrees(e.start), inDegrees(e.end));
      return;
    case 'point':
      writer.drawPoint(mm(e.at[0]), mm(e.at[1]));
      return;
    case 'text':
      writer.drawText(mm(e.at[0]), mm(e.at[1]), positive(e.height), 0, checkedWords(e.words), e.align ?? 'left');
  }
}

/** One closed polyline: the closing flag, and no first vertex again at the end. */
function drawOutline(writer: Drawing, outline: Outline): void {
  validateOutline(outline, { turning: 'either' });
  const vertices = splitArcs(outline, MOST_ARC).vertices.map((v): [number, number, number] => {
    const bulge = plainNumber(v.bulge, 9);
    return [mm(v.x), mm(v.y), Math.abs(bulge) < LEAST_BULGE ? 0 : bulge];
  });
  // The library's types leave out the bulge its own comment names.
  writer.drawPolyline(vertices as unknown as [number, number][], true);
}

function positive(value: number): number {
  if (!(mm(value) > 0)) throw new RangeError(`a drawing cannot hold a radius or height of ${value} mm`);
  return mm(value);
}

function inDegrees(rad: number): number {
  const degrees = mm((rad * 180) / Math.PI) % 360;
  return degrees < 0 ? mm(degrees + 360) : degrees;
}

function checkLayers(drawing: DxfDrawing): void {
  const names = drawing.layers.map((l) => l.name);
  for (const [i, name] of names.entries()) {
    if (!/^[A-Z0-9_-]{1,31}$/.test(name))
      throw new RangeError(`layer '${name}' is not made of A-Z, 0-9, _ and -, 31 at most`);
    if (names.indexOf(name) !== i) throw new RangeError(`layer '${name}' is listed twice`);
  }
  const stray = drawing.entities.find((e) => !names.includes(e.layer));
  if (stray !== undefined) throw new RangeError(`a ${stray.kind} lies on layer '${stray.layer}', which is not listed`);
}

function checkedWords(words: string): string {
  if (!/^[ -~]+$/.test(words))
    throw new RangeError(`words in a drawing are one line of printable ASCII, got '${words}'`);
  if (words.includes('%%')) throw new RangeError(`'%%' begins a control code in a drawing: '${words}'`);
  return words;
}

/** Words as a drawing takes them: accents dropped, line breaks as blanks, other signs as '?', no control codes. */
export function asciiWords(words: string): string {
  const plain = words
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/\s+/g, ' ')
    .replace(/[^ -~]/gu, '?');
  return plain.replace(/%(?=%)/g, '% ') || '-';
}

/** Rough width of a line of words, mm: the simplex font is no wider than its height. */
const widthOf = (words: string, height: number): number => words.length * height * 0.9;

function extentsOf(entities: readonly DxfEntity[]): { readonly from: Vec2; readonly to: Vec2 } {
  const points = entities.flatMap(cornersOf);
  if (points.length === 0) throw new RangeError('a drawing needs something drawn');
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return { from: [Math.min(...xs), Math.min(...ys)], to: [Math.max(...xs), Math.max(...ys)] };
}

function cornersOf(e: DxfEntity): readonly Vec2[] {
  if (e.kind === 'line') return [e.from, e.to];
  if (e.kind === 'point') return [e.at];
  if (e.kind === 'circle') return discCorners(e.centre, e.diameter / 2);
  if (e.kind === 'arc') return discCorners(e.centre, e.radius);
  if (e.kind === 'outline') {
    const { from, to } = outlineBounds(e.outline);
    return [from, to];
  }
  const width = widthOf(e.words, e.height);
  const left = e.at[0] - (e.align === 'right' ? width : e.align === 'center' ? width / 2 : 0);
  return [
    [left, e.at[1]],
    [left + width, e.at[1] + e.height],
  ];
}

const discCorners = (c: Vec2, r: number): readonly Vec2[] => [
  [c[0] - r, c[1] - r],
  [c[0] + r, c[1] + r],
];

/** Codes that belong to every entity, where the library writes them after the mark of the entity's own kind. */
const COMMON_CODES = new Set(['6', '8', '62', '370']);

/** The file with layer, line type and colour under AcDbEntity, as the DXF reference has them, and the handle seed above all handles. */
function inOrder(text: string): string {
  const lines = text.split('\n');
  const pairs = Array.from({ length: lines.length / 2 }, (_, i) => ({ code: lines[2 * i]!, value: lines[2 * i + 1]! }));
  const ordered: { code: string; value: string }[] = [];
  let inEntities = false;
  let commonAt = -1;
  for (const pair of pairs) {
    if (pair.code === '2' && ordered[ordered.length - 1]?.value === 'SECTION') inEntities = pair.value === 'ENTITIES';
    if (pair.code === '0') commonAt = -1;
    if (inEntities && commonAt >= 0 && COMMON_CODES.has(pair.code)) ordered.splice(commonAt++, 0, pair);
    else ordered.push(pair);
    if (pair.code === '100' && pair.value === 'AcDbEntity') commonAt = ordered.length;
  }
  const seed = ordered.findIndex((p) => p.code === '9' && p.value === '$HANDSEED');
  if (seed >= 0) ordered[seed + 1] = { code: '5', value: (handle.seed + 1).toString(16).toUpperCase() };
  return ordered.flatMap((p) => [p.code, p.value]).join('\n');
}
