import { wrapTwoPi } from '../angle.js';
import { distance2, scale2, sub2, type Vec2 } from '../vec2.js';
import type { Outline, OutlineVertex } from './outline.js';

export interface LineSide {
  readonly kind: 'line';
  readonly from: Vec2;
  readonly to: Vec2;
}

export interface ArcSide {
  readonly kind: 'arc';
  readonly from: Vec2;
  readonly to: Vec2;
  readonly centre: Vec2;
  /** mm. */
  readonly radius: number;
  /** Direction from the centre to `from`, rad. */
  readonly start: number;
  /** Turned angle, rad: positive counter-clockwise, within a full turn. */
  readonly sweep: number;
}

/** One side of an outline with its arc worked out. */
export type Side = LineSide | ArcSide;

/**
 * Side between two points, mm, by bulge.
 * Source: centre and radius from the chord by bulge = tan(included/4), Autodesk DXF reference, LWPOLYLINE group 42.
 */
export function sideBetween(from: Vec2, to: Vec2, bulge: number): Side {
  if (bulge === 0) return { kind: 'line', from, to };
  const [dx, dy] = sub2(to, from);
  const k = (1 - bulge * bulge) / (4 * bulge);
  const centre: Vec2 = [(from[0] + to[0]) / 2 - dy * k, (from[1] + to[1]) / 2 + dx * k];
  const radius = (Math.hypot(dx, dy) * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  const start = Math.atan2(from[1] - centre[1], from[0] - centre[0]);
  return { kind: 'arc', from, to, centre, radius, start, sweep: 4 * Math.atan(bulge) };
}

/** The sides of an outline in order; side i leaves vertex i. */
export function sidesOf(outline: Outline): readonly Side[] {
  const v = outline.vertices;
  return v.map((a, i) => {
    const b = v[(i + 1) % v.length]!;
    return sideBetween([a.x, a.y], [b.x, b.y], a.bulge);
  });
}

/** Arc about a centre, mm, from a direction, rad, by a signed sweep, rad. */
export function arcAbout(centre: Vec2, radius: number, start: number, sweep: number): ArcSide {
  const at = (a: number): Vec2 => [centre[0] + radius * Math.cos(a), centre[1] + radius * Math.sin(a)];
  return { kind: 'arc', from: at(start), to: at(start + sweep), centre, radius, start, sweep };
}

/** Bulge of a side: tan of a quarter of its signed included angle. */
export const bulgeOf = (side: Side): number => (side.kind === 'line' ? 0 : Math.tan(side.sweep / 4));

/** Outline that runs through sides given in order, each ending where the next begins. A lone full circle becomes two halves. */
export function outlineOfSides(sides: readonly Side[]): Outline {
  const vertices: OutlineVertex[] = sides.flatMap((s) => {
    const first = { x: s.from[0], y: s.from[1], bulge: bulgeOf(s) };
    if (s.kind === 'line' || Math.abs(s.sweep) <= 1.5 * Math.PI + 1e-9) return [first];
    const half = Math.tan(s.sweep / 8);
    const mid = pointAlong(s, 0.5);
    return [
      { ...first, bulge: half },
      { x: mid[0], y: mid[1], bulge: half },
    ];
  });
  return { vertices };
}

/** mm. */
export const sideLength = (side: Side): number =>
  side.kind === 'line' ? distance2(side.from, side.to) : side.radius * Math.abs(side.sweep);

/** Point at a fraction 0 to 1 of a side's length. */
export function pointAlong(side: Side, t: number): Vec2 {
  if (t === 0) return side.from;
  if (t === 1) return side.to;
  if (side.kind === 'line') {
    return [side.from[0] + (side.to[0] - side.from[0]) * t, side.from[1] + (side.to[1] - side.from[1]) * t];
  }
  const a = side.start + side.sweep * t;
  return [side.centre[0] + side.radius * Math.cos(a), side.centre[1] + side.radius * Math.sin(a)];
}

/** Unit direction of travel at a fraction 0 to 1 of a side's length. */
export function directionAlong(side: Side, t: number): Vec2 {
  if (side.kind === 'line') {
    const l = distance2(side.from, side.to);
    return scale2(sub2(side.to, side.from), 1 / l);
  }
  const a = side.start + side.sweep * t;
  const way = Math.sign(side.sweep);
  return [-Math.sin(a) * way, Math.cos(a) * way];
}

/** Fraction of an arc's sweep at which it passes a direction from its centre, rad; above 1 when it does not reach it. */
export function arcFraction(arc: ArcSide, direction: number): number {
  const turned = arc.sweep > 0 ? wrapTwoPi(direction - arc.start) : wrapTwoPi(arc.start - direction);
  return turned / Math.abs(arc.sweep);
}

/** The side run the other way. */
export function reverseSide(side: Side): Side {
  return side.kind === 'line'
    ? { kind: 'line', from: side.to, to: side.from }
    : { ...side, from: side.to, to: side.from, start: side.start + side.sweep, sweep: -side.sweep };
}
