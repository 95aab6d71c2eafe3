import { wrapTwoPi } from './angle.js';
import { type ConvexRim, rimPoint } from './convex-rim.js';
import { biarcsAlong } from './curve-biarcs.js';
import type { Outline } from './outline.js';
import { outlineOfSides, type Side } from './outline-sides.js';
import { validateOutline } from './outline-valid.js';
import { add2, distance2, rotate2, scale2, sub2, type Vec2 } from './vec2.js';
import { distance, type Vec3 } from './vec3.js';

/** A straight line of the surface from rim to rim, in space and on the flat, mm. */
export interface Ruling {
  readonly low: Vec3;
  readonly high: Vec3;
  readonly flatLow: Vec2;
  readonly flatHigh: Vec2;
  /** Outward normal of both rims there, rad. */
  readonly normal: number;
  /** What lies between the ruling before and this one: a flat triangle or trapezoid, or a piece of cone. */
  readonly before: 'flat' | 'cone';
}

/** A surface between two convex rims, laid flat. */
export interface DevelopedBand {
  /** Counter-clockwise, seen from outside, the low rim below. */
  readonly outline: Outline;
  /** In order, from one end of the seam to the other. */
  readonly rulings: readonly Ruling[];
  /** Largest distance of the outline from the true development, mm. */
  readonly deviation: number;
}

const TURN = 2 * Math.PI;

/** Rulings a turn that are tried, doubled until the flat moves by no more than SETTLED. */
const RULINGS = { first: 360, most: 11_520 } as const;

/** Most a development may move when its rulings are halved, mm. A halving leaves a third of it, for the error falls with the square. */
const SETTLED = 0.0015;

/** Points this close, mm, are one. */
const SAME = 1e-9;

/**
 * The development of the convex hull's side between two convex rims in parallel planes, the second `height` mm above the first: a
 * line of it joins points of equal outward normal, so it is one plane along the line and unrolls. Where a rim has an edge a flat
 * triangle stands on it. The flat is built triangle by triangle from true lengths. Seam: the shortest line. Throws RangeError when
 * the height is not above zero, or the flat would lie over itself wherever the seam is.
 */
export function developBand(low: ConvexRim, high: ConvexRim, height: number, tolerance: number): DevelopedBand {
  if (!(height > 0)) throw new RangeError(`a transition has a height over 0 mm, not ${height}`);
  const seams = seamsOf(low, high, height);
  let reason: unknown = null;
  for (const seam of seams) {
    const { steps: laid, error } = settled(low, high, height, seam);
    const steps = upright(laid);
    const { outline, deviation } = outlineOf(steps, tolerance);
    try {
      validateOutline(outline);
      return { outline, rulings: steps, deviation: deviation + error };
    } catch (e) {
      if (!(e instanceof RangeError)) throw e;
      reason = e;
    }
  }
  throw new RangeError(`the transition does not lie flat in one piece: ${(reason as Error).message}`);
}

interface Line3 {
  readonly low: Vec3;
  readonly high: Vec3;
  readonly normal: number;
  readonly before: Ruling['before'];
  /** Number of the piece of cone or the flat it ends. */
  readonly piece: number;
}

/** Normals to put the seam at: the shortest line first, then others round the surface. */
function seamsOf(low: ConvexRim, high: ConvexRim, height: number): number[] {
  const lines = linesFrom(low, high, height, 0, RULINGS.first);
  const lengths = lines.map((l) => distance(l.low, l.high));
  const least = Math.min(...lengths);
  const shortest = lines[lengths.findIndex((l) => l < least + 1e-6)]!.normal;
  return [shortest, ...[1, 2, 3, 4, 5].map((k) => shortest + (k * TURN) / 6)];
}

/** Lines of the surface once round from a normal, about `count` on its cones. */
function linesFrom(low: ConvexRim, high: ConvexRim, height: number, seam: number, count: number): Line3[] {
  const swaps = [...low.spans, ...high.spans].map((s) => seam + wrapTwoPi(s.from - seam));
  const inside = swaps.filter((a) => a > seam + SAME && a < seam + TURN - SAME).sort((a, b) => a - b);
  const breaks = [seam, ...inside.filter((a, i) => i === 0 || a - inside[i - 1]! > SAME), seam + TURN];
  const lines: Line3[] = [];
  for (let i = 1; i < breaks.length; i++) {
    const [from, to] = [breaks[i - 1]!, breaks[i]!];
    const steps = Math.max(6, Math.ceil(((to - from) / TURN) * count));
    for (let k = 0; k <= steps; k++) {
      const normal = from + ((to - from) * k) / steps;
      const [a, b] = [rimPoint(low, normal, (from + to) / 2), rimPoint(high, normal, (from + to) / 2)];
      push(lines, {
        low: [...a, 0],
        high: [...b, height],
        normal,
        before: k === 0 ? 'flat' : 'cone',
        piece: 2 * i + (k === 0 ? 0 : 1),
      });
    }
  }
  const first = lines[0]!;
  push(lines, { ...first, normal: seam + TURN, before: 'flat', piece: 2 * breaks.length });
  return lines;
}

/** A line is kept where it is another than the one before. */
function push(lines: Line3[], line: Line3): void {
  const last = lines.at(-1);
  if (last !== undefined && distance(last.low, line.low) < SAME && distance(last.high, line.high) < SAME) return;
  lines.push(line);
}

type Step = Ruling & { readonly piece: number };

/** The flat with so many rulings that half as many give the same, and what is left of the error, mm. */
function settled(
  low: ConvexRim,
  high: ConvexRim,
  height: number,
  seam: number,
): { readonly steps: readonly Step[]; readonly error: number } {
  const flat = (count: number): readonly Step[] => laidFlat(linesFrom(low, high, height, seam, count));
  let coarse = flat(RULINGS.first);
  for (let count = 2 * RULINGS.first; ; count *= 2) {
    const fine = flat(count);
    const moved = movedBetween(coarse, fine);
    if (moved < SETTLED || count >= RULINGS.most) return { steps: fine, error: moved / 3 };
    coarse = fine;
  }
}

function movedBetween(coarse: readonly Step[], fine: readonly Step[]): number {
  const byNormal = new Map(fine.map((s) => [keyOf(s), s]));
  return coarse.reduce((most, s) => {
    const twin = byNormal.get(keyOf(s));
    if (twin === undefined) return most;
    return Math.max(most, distance2(s.flatLow, twin.flatLow), distance2(s.flatHigh, twin.flatHigh));
  }, 0);
}

const keyOf = (s: Step): string => `${s.piece}:${s.normal.toFixed(9)}`;

/** Every line laid beside the one before by its true lengths. */
function laidFlat(lines: readonly Line3[]): readonly Step[] {
  const first = lines[0]!;
  const out: Step[] = [{ ...first, flatLow: [0, 0], flatHigh: [0, distance(first.low, first.high)] }];
  for (const line of lines.slice(1)) {
    const last = out.at(-1)!;
    const flatLow = thirdCorner(
      last.flatLow,
      last.flatHigh,
      distance(last.low, line.low),
      distance(last.high, line.low),
    );
    const flatHigh = thirdCorner(flatLow, last.flatHigh, distance(line.low, line.high), distance(last.high, line.high));
    out.push({ ...line, flatLow, flatHigh });
  }
  return out;
}

/** The flat turned so that its middle line stands upright. */
function upright(out: readonly Step[]): readonly Step[] {
  const middle = out[Math.floor(out.length / 2)]!;
  const [x, y] = scale2(sub2(middle.flatHigh, middle.flatLow), 1 / distance2(middle.flatHigh, middle.flatLow));
  const turned = (p: Vec2): Vec2 => rotate2(sub2(p, middle.flatLow), y, x);
  return out.map((s) => ({ ...s, flatLow: turned(s.flatLow), flatHigh: turned(s.flatHigh) }));
}

/** The corner to the right of the way from a to b at distances from them, mm. */
function thirdCorner(a: Vec2, b: Vec2, fromA: number, fromB: number): Vec2 {
  // On one of them the root below would give the square root of rounding.
  if (fromA < SAME) return a;
  if (fromB < SAME) return b;
  const d = distance2(a, b);
  const x = (fromA * fromA - fromB * fromB + d * d) / (2 * d);
  const y = Math.sqrt(Math.max(fromA * fromA - x * x, 0));
  const [ux, uy] = scale2(sub2(b, a), 1 / d);
  return add2(a, [ux * x + uy * y, uy * x - ux * y]);
}

function outlineOf(
  steps: readonly Step[],
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
  steps: readonly Step[],
  pointOf: (s: Step) => Vec2,
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
