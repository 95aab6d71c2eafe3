import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { DXF_COLOUR, type DxfDrawing, type DxfEntity, type DxfOptions, USUAL_DXF } from './drawing.js';
import { r12Text } from './r12.js';
import { r2007Text } from './r2007.js';
import { inUnit, shapesOf } from './shapes.js';

/**
 * The drawing as the text of an ASCII DXF, the same bytes for the same drawing. Group codes: Autodesk DXF reference. Throws
 * RangeError for numbers that are not finite, outlines that cross themselves, unknown or badly named layers and words beyond
 * printable ASCII.
 */
export function dxfText(drawing: DxfDrawing, options: DxfOptions = USUAL_DXF): string {
  checkLayers(drawing);
  const { units } = options;
  const { from, to } = extentsOf(drawing.entities);
  const corner = ([x, y]: Vec2): Vec2 => [inUnit(x, units), inUnit(y, units)];
  const sheet = {
    units,
    layers: drawing.layers.map(({ name, colour }) => ({ name, colour: DXF_COLOUR[colour] })),
    shapes: drawing.entities.flatMap((e) => shapesOf(e, options).map((shape) => ({ layer: e.layer, shape }))),
    from: corner(from),
    to: corner(to),
  };
  return options.version === 'r12' ? r12Text(sheet) : r2007Text(sheet);
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
  if (e.kind === 'stroke') return e.points;
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
