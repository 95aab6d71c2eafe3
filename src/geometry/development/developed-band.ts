import type { Outline } from '../outline/outline.js';
import { validateOutline } from '../outline/valid.js';
import { add2, distance2, rotate2, scale2, sub2, type Vec2 } from '../vec2.js';
import { distance } from '../vec3.js';
import { type BandLine, linesFrom, SAME, seamsOf } from './band-lines.js';
import { outlineOf } from './band-outline.js';
import type { ConvexRim } from './convex-rim.js';

/** A straight line of the surface from rim to rim, in space and on the flat, mm. */
export interface Ruling extends BandLine {
  readonly flatLow: Vec2;
  readonly flatHigh: Vec2;
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

/** Rulings a turn that are tried, doubled until the flat moves by no more than SETTLED. */
const RULINGS = { first: 360, most: 11_520 } as const;

/** Most a development may move when its rulings are halved, mm. A halving leaves a third of it, for the error falls with the square. */
const SETTLED = 0.0015;

/**
 * The development of the convex hull's side between two convex rims in parallel planes, the second `height` mm above the first: a
 * line of it joins points of equal outward normal, so it is one plane along the line and unrolls. Where a rim has an edge a flat
 * triangle stands on it. The flat is built triangle by triangle from true lengths. Seam: the shortest line. Throws RangeError when
 * the height is not above zero, or the flat would lie over itself wherever the seam is.
 */
export function developBand(low: ConvexRim, high: ConvexRim, height: number, tolerance: number): DevelopedBand {
  if (!(height > 0)) throw new RangeError(`a transition has a height over 0 mm, not ${height}`);
  const seams = seamsOf(low, high, height, RULINGS.first);
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

/** The flat with so many rulings that half as many give the same, and what is left of the error, mm. */
function settled(
  low: ConvexRim,
  high: ConvexRim,
  height: number,
  seam: number,
): { readonly steps: readonly Ruling[]; readonly error: number } {
  const flat = (count: number): readonly Ruling[] => laidFlat(linesFrom(low, high, height, seam, count));
  let coarse = flat(RULINGS.first);
  for (let count = 2 * RULINGS.first; ; count *= 2) {
    const fine = flat(count);
    const moved = movedBetween(coarse, fine);
    if (moved < SETTLED || count >= RULINGS.most) return { steps: fine, error: moved / 3 };
    coarse = fine;
  }
}

function movedBetween(coarse: readonly Ruling[], fine: readonly Ruling[]): number {
  const byNormal = new Map(fine.map((s) => [keyOf(s), s]));
  return coarse.reduce((most, s) => {
    const twin = byNormal.get(keyOf(s));
    if (twin === undefined) return most;
    return Math.max(most, distance2(s.flatLow, twin.flatLow), distance2(s.flatHigh, twin.flatHigh));
  }, 0);
}

const keyOf = (s: Ruling): string => `${s.piece}:${s.normal.toFixed(9)}`;

/** Every line laid beside the one before by its true lengths. */
function laidFlat(lines: readonly BandLine[]): readonly Ruling[] {
  const first = lines[0]!;
  const out: Ruling[] = [{ ...first, flatLow: [0, 0], flatHigh: [0, distance(first.low, first.high)] }];
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
function upright(out: readonly Ruling[]): readonly Ruling[] {
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
