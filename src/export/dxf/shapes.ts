import { circleOf, splitArcs } from '../../geometry/outline/make.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { type Side, sideBetween } from '../../geometry/outline/sides.js';
import { validateOutline } from '../../geometry/outline/valid.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { plainNumber } from '../plain-number.js';
import type { DxfEntity, DxfOptions } from './drawing.js';

/** What stands in the file: numbers as written, in its unit, angles in degrees. */
export type DxfShape =
  | { readonly kind: 'line'; readonly from: Vec2; readonly to: Vec2 }
  | { readonly kind: 'circle'; readonly centre: Vec2; readonly radius: number }
  | {
      readonly kind: 'arc';
      readonly centre: Vec2;
      readonly radius: number;
      readonly start: number;
      readonly end: number;
    }
  | {
      readonly kind: 'polyline';
      readonly vertices: readonly (readonly [x: number, y: number, bulge: number])[];
      readonly closed: boolean;
    }
  | { readonly kind: 'point'; readonly at: Vec2 }
  | {
      readonly kind: 'text';
      readonly at: Vec2;
      readonly words: string;
      readonly height: number;
      readonly align: 'left' | 'center' | 'right';
    };

/** Arcs of polylines are split to this, rad: some readers draw bulges beyond a quarter wrong. */
const MOST_ARC = Math.PI / 2;

/** Flatter bulges are written as straight: 1 m of it rises by 0.5 um. */
const LEAST_BULGE = 1e-6;

/** Decimals of coordinates: a millionth of a millimetre, and finer than that in inches. */
const DECIMALS = { mm: 6, in: 8 } as const;

/** Decimals of loose arcs, which have no end points of their own: their ends fall on the vertices to within 1e-9. */
const ARC_DECIMALS = 12;

/** A length or coordinate in mm as a file in a unit has it. */
export const inUnit = (value: number, units: DxfOptions['units']): number =>
  plainNumber(units === 'in' ? (value * 5) / 127 : value, DECIMALS[units]);

/** The shapes an entity is written as: one, or for a contour of loose curves several in its order. */
export function shapesOf(e: DxfEntity, { units, curves }: DxfOptions): readonly DxfShape[] {
  const size = (value: number): number => inUnit(value, units);
  const point = ([x, y]: Vec2): Vec2 => [size(x), size(y)];
  const positive = (value: number): number => {
    if (!(size(value) > 0)) throw new RangeError(`a drawing cannot hold a radius or height of ${value} mm`);
    return size(value);
  };
  switch (e.kind) {
    case 'outline': {
      const circle = circleOf(e.outline);
      if (circle !== null)
        return [{ kind: 'circle', centre: point(circle.centre), radius: positive(circle.diameter / 2) }];
      validateOutline(e.outline, { turning: 'either' });
      return curves === 'polylines' ? [closedPolyline(e.outline, size)] : looseCurves(e.outline, size);
    }
    case 'stroke': {
      const vertices = e.points.map((p) => [...point(p), 0] as const);
      if (curves === 'polylines') return [{ kind: 'polyline', vertices, closed: false }];
      return vertices
        .slice(1)
        .map(([x, y], i) => ({ kind: 'line', from: [vertices[i]![0], vertices[i]![1]], to: [x, y] }));
    }
    case 'circle':
      return [{ kind: 'circle', centre: point(e.centre), radius: positive(e.diameter / 2) }];
    case 'line':
      return [{ kind: 'line', from: point(e.from), to: point(e.to) }];
    case 'arc': {
      const [start, end] = [inDegrees(e.start, 6), inDegrees(e.end, 6)];
      return [{ kind: 'arc', centre: point(e.centre), radius: positive(e.radius), start, end }];
    }
    case 'point':
      return [{ kind: 'point', at: point(e.at) }];
    case 'text': {
      const { words, align = 'left' } = e;
      return [{ kind: 'text', at: point(e.at), words: checkedWords(words), height: positive(e.height), align }];
    }
  }
}

/** One closed polyline: the closing flag, and no first vertex again at the end. */
function closedPolyline(outline: Outline, size: (value: number) => number): DxfShape {
  const vertices = splitArcs(outline, MOST_ARC).vertices.map(
    (v) => [size(v.x), size(v.y), writtenBulge(v.bulge)] as const,
  );
  return { kind: 'polyline', vertices, closed: true };
}

/** Lines and arcs in the order of the contour. They share vertices as written: ends of lines bit by bit, those of arcs as near as an angle says it. */
function looseCurves(outline: Outline, size: (value: number) => number): DxfShape[] {
  const v = outline.vertices.map((p) => ({ at: [size(p.x), size(p.y)] as const, bulge: writtenBulge(p.bulge) }));
  return v.map(({ at, bulge }, i) => looseCurve(sideBetween(at, v[(i + 1) % v.length]!.at, bulge)));
}

function looseCurve(side: Side): DxfShape {
  if (side.kind === 'line') return side;
  const { centre, radius, start, sweep } = side;
  const fine = (value: number): number => plainNumber(value, ARC_DECIMALS);
  // A DXF arc always runs counter-clockwise.
  const [first, last] = sweep > 0 ? [start, start + sweep] : [start + sweep, start];
  return {
    kind: 'arc',
    centre: [fine(centre[0]), fine(centre[1])],
    radius: fine(radius),
    start: inDegrees(first, ARC_DECIMALS),
    end: inDegrees(last, ARC_DECIMALS),
  };
}

function writtenBulge(value: number): number {
  const bulge = plainNumber(value, 9);
  return Math.abs(bulge) < LEAST_BULGE ? 0 : bulge;
}

function inDegrees(rad: number, decimals: number): number {
  const degrees = plainNumber((rad * 180) / Math.PI, decimals) % 360;
  return plainNumber(degrees < 0 ? degrees + 360 : degrees, decimals);
}

function checkedWords(words: string): string {
  if (!/^[ -~]+$/.test(words))
    throw new RangeError(`words in a drawing are one line of printable ASCII, got '${words}'`);
  if (words.includes('%%')) throw new RangeError(`'%%' begins a control code in a drawing: '${words}'`);
  return words;
}
