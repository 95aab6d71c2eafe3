import flatten from '@flatten-js/core';
import type { Vec2 } from '../vec2.js';
import { rejoinSides } from './chain.js';
import { windingNumber } from './contains.js';
import { onSide } from './crossings.js';
import { cutAtCrossings, withoutDoubles } from './fragments.js';
import { areaOfSides, signedArea } from './measure.js';
import type { Outline } from './outline.js';
import { outlineOfSides, pointAlong, type Side, sideLength, sidesOf } from './sides.js';
import { translateOutline } from './transform.js';

/** Two routes to one area may differ by this part of it, or by this many mm2 when it is small. */
export const AREA_AGREEMENT = 1e-6;

/** Moves of an outline tried when nearly tangent sides make an operation on two stumble, mm: far below what any cut shows. */
export const NUDGES: readonly Vec2[] = [
  [0, 0],
  [3.1e-6, 1.7e-6],
  [-2.3e-6, 4.1e-6],
  [5.3e-6, -3.7e-6],
  [-1.1e-5, -0.7e-5],
];

/**
 * Union of counter-clockwise outlines, arcs kept as arcs: outer outlines counter-clockwise, holes left between them clockwise.
 * The kernel throws or errs on rare near-tangent cases, so every result is checked against the area found by walking the
 * uncovered pieces of the given outlines; on a difference the outlines are nudged by some nanometres and joined again.
 * Throws Error when no try gives the right area.
 */
export function unionOf(outlines: readonly Outline[]): readonly Outline[] {
  if (outlines.length === 0) return [];
  const failures: string[] = [];
  for (const nudge of NUDGES) {
    const moved = outlines.map((o, i) => translateOutline(o, [nudge[0] * i, nudge[1] * i]));
    const expected = uncoveredArea(moved);
    try {
      const joined = joinAll(moved);
      const found = joined.reduce((sum, o) => sum + signedArea(o), 0);
      if (Math.abs(found - expected) <= AREA_AGREEMENT * Math.max(expected, 1)) return joined;
      failures.push(`area ${found} mm2 where ${expected} mm2 was due`);
    } catch (error) {
      failures.push(String(error));
    }
  }
  throw new Error(`no union of ${outlines.length} outlines was found: ${failures.join('; ')}`);
}

function joinAll(outlines: readonly Outline[]): Outline[] {
  const joined = outlines.map(polygonOf).reduce((a, b) => flatten.BooleanOperations.unify(a, b));
  return [...joined.faces].map((face: flatten.Face) => {
    const sides = face.shapes.map(sideOf).filter((s) => sideLength(s) > 1e-7);
    return outlineOfSides(rejoinSides(sides));
  });
}

function polygonOf(outline: Outline): flatten.Polygon {
  const polygon = new flatten.Polygon();
  polygon.addFace(
    sidesOf(outline).map((s) => {
      if (s.kind === 'line') return flatten.segment(flatten.point(...s.from), flatten.point(...s.to));
      return flatten.arc(flatten.point(...s.centre), s.radius, s.start, s.start + s.sweep, s.sweep > 0);
    }),
  );
  return polygon;
}

function sideOf(shape: flatten.Segment | flatten.Arc): Side {
  const from: Vec2 = [shape.start.x, shape.start.y];
  const to: Vec2 = [shape.end.x, shape.end.y];
  if (shape instanceof flatten.Segment) return { kind: 'line', from, to };
  const sweep = shape.counterClockwise ? shape.sweep : -shape.sweep;
  return { kind: 'arc', from, to, centre: [shape.pc.x, shape.pc.y], radius: shape.r, start: shape.startAngle, sweep };
}

/** Area of the union of outlines by Green's theorem over the pieces of their sides that no other outline covers, mm2. */
export function uncoveredArea(outlines: readonly Outline[]): number {
  const loops = outlines.map(sidesOf);
  const bare = cutAtCrossings(loops.flat()).filter((piece) => {
    const middle = pointAlong(piece, 0.5);
    return loops.every((loop) => loop.some((s) => onSide(middle, s, 1e-7)) || windingNumber(middle, loop) === 0);
  });
  const first = outlines[0]?.vertices[0];
  return first === undefined ? 0 : areaOfSides(withoutDoubles(bare, 1e-5), [first.x, first.y]);
}
