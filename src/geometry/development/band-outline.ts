import { biarcsAlong } from '../curve/curve-biarcs.js';
import type { Outline } from '../outline/outline.js';
import { outlineOfSides, type Side } from '../outline/sides.js';
import { add2, distance2, scale2, type Vec2 } from '../vec2.js';
import { SAME } from './band-lines.js';

/** A line of the surface laid flat, mm. */
export interface FlatLine {
  readonly flatLow: Vec2;
  readonly flatHigh: Vec2;
  /** Outward normal, rad. */
  readonly normal: number;
  /** Number of the piece of cone or the flat it ends. */
  readonly piece: number;
}

/** The outline round lines laid side by side, its arcs no further than `tolerance` mm from the development, and how far they are. */
export function outlineOf(
  steps: readonly FlatLine[],
  tolerance: number,
): { readonly outline: Outline; readonly deviation: number } {
  const below = rimSides(steps, (s) => s.flatLow, tolerance);
  const above = rimSides([...steps].reverse(), (s) => s.flatHigh, tolerance);
  const [first, last] = [steps[0]!, steps.at(-1)!];
  const outline = outlineOfSides([
    ...below.sides,
    { kind: 'line', from: last.flatLow, to: last.flatHigh },
    ...above.sides,
    { kind: 'line', from: first.flatHigh, to: first.flatLow },
  ]);
  return { outline, deviation: Math.max(below.deviation, above.deviation) };
}

/** One rim on the flat: a line for each flat, arcs along each piece of cone. */
function rimSides(
  steps: readonly FlatLine[],
  pointOf: (s: FlatLine) => Vec2,
  tolerance: number,
): { sides: Side[]; deviation: number } {
  const sides: Side[] = [];
  let deviation = 0;
  const backwards = steps[0]!.normal > steps.at(-1)!.normal;
  const pieceAt = (i: number): number => (backwards ? steps[i - 1]! : steps[i]!).piece;
  for (let from = 0; from < steps.length - 1; ) {
    let to = from + 1;
    while (to < steps.length - 1 && pieceAt(to + 1) === pieceAt(from + 1)) to++;
    const points = steps.slice(from, to + 1).map(pointOf);
    const fit = runSides(points, tolerance);
    sides.push(...fit.sides);
    deviation = Math.max(deviation, fit.deviation);
    from = to;
  }
  return { sides, deviation };
}

function runSides(
  points: readonly Vec2[],
  tolerance: number,
): { readonly sides: readonly Side[]; readonly deviation: number } {
  const kept = points.filter((p, i) => i === 0 || distance2(p, points[i - 1]!) > SAME);
  if (kept.length < 2) return { sides: [], deviation: 0 };
  if (kept.length < 4) {
    return { sides: kept.slice(1).map((to, i) => ({ kind: 'line', from: kept[i]!, to })), deviation: 0 };
  }
  return biarcsAlong(through(kept), 0, kept.length - 1, tolerance);
}

/** The cubic through every four neighbouring points, by Lagrange: they lie so close that it is the curve. */
function through(points: readonly Vec2[]): (t: number) => Vec2 {
  return (t) => {
    const i = Math.min(Math.max(Math.floor(t) - 1, 0), points.length - 4);
    const u = t - i;
    const weights = [
      -((u - 1) * (u - 2) * (u - 3)) / 6,
      (u * (u - 2) * (u - 3)) / 2,
      -(u * (u - 1) * (u - 3)) / 2,
      (u * (u - 1) * (u - 2)) / 6,
    ];
    return weights.reduce((sum: Vec2, w, k) => add2(sum, scale2(points[i + k]!, w)), [0, 0]);
  };
}
