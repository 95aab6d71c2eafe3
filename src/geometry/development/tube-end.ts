import type { Plane } from '../plane.js';
import { dot, sub, type Vec3 } from '../vec3.js';

/** What a tube's end is cut by or fitted to, in the tube's frame: z along the tube to the end that is cut. */
export type CutSurface =
  | { readonly kind: 'plane'; readonly plane: Plane }
  /** The skin of another tube, or of a cone: `radius` mm at `point` of its axis, growing by tan(`taper` rad) along the unit `axis`. */
  | {
      readonly kind: 'round';
      readonly point: Vec3;
      readonly axis: Vec3;
      readonly radius: number;
      readonly taper: number;
    };

/** The developed edge of a tube's end: height, mm, along the generator at `phi` rad, counted from the tube's x towards its y. */
export interface TubeEnd {
  readonly height: (phi: number) => number;
  /** Angles in [0, 2 pi) where the edge may have a corner: cuts meet, or a cut has a ridge of its own. In order. */
  readonly corners: readonly number[];
}

const TURN = 2 * Math.PI;

/** Places round the tube at which corners are looked for: cuts that swap twice within half a degree do so by less than a hair. */
const PLACES = 720;

/** A square end at a height, mm. */
export const squareEnd = (height: number): TubeEnd => ({ height: () => height, corners: [] });

/**
 * The end of a tube of `radius` mm, at whose skin the cut is seen, that goes on until the first of the cuts: the least of the
 * closed forms. Throws RangeError when a cut is not met by every generator, or there is none.
 */
export function tubeEnd(cuts: readonly CutSurface[], radius: number): TubeEnd {
  if (cuts.length === 0) throw new RangeError('an end without a cut has no edge');
  const heights = cuts.map(
    (c) =>
      (phi: number): number =>
        heightAt(c, radius, phi),
  );
  const height = (phi: number): number =>
    heights.reduce((least, h) => Math.min(least, h(phi)), Number.POSITIVE_INFINITY);
  const corners = [...swaps(heights), ...cuts.flatMap((c) => (c.kind === 'round' ? ridges(c, radius, heights) : []))];
  return { height, corners: [...new Set(corners)].sort((a, b) => a - b) };
}

/**
 * Height, mm, at which the generator at `phi` rad of a tube of `radius` mm meets a cut: for a round one where it enters. Plane:
 * z = (n p - r (nx cos phi + ny sin phi)) / nz. Throws RangeError when it does not.
 */
export function heightAt(cut: CutSurface, radius: number, phi: number): number {
  const height = entry(cut, radius, phi);
  if (height === null) throw new RangeError('part of the tube passes beside the other');
  return height;
}

/** The same; null where a generator passes beside a round cut. */
function entry(cut: CutSurface, radius: number, phi: number): number | null {
  const [x, y] = [radius * Math.cos(phi), radius * Math.sin(phi)];
  if (cut.kind === 'plane') {
    const { point, normal: n } = cut.plane;
    if (Math.abs(n[2]) < 1e-9) throw new RangeError('a plane along a tube cuts no end');
    return (dot(n, point) - n[0] * x - n[1] * y) / n[2];
  }
  const { a, b, square } = quadratic(cut, x, y);
  if (!(a > 1e-9)) throw new RangeError('a tube that runs along another, or within its taper, has no end on it');
  if (square < -1e-9 * cut.radius ** 2) return null;
  const z = (-b - Math.sqrt(Math.max(square, 0))) / a;
  const s = dot(sub([x, y, z], cut.point), cut.axis);
  if (!(cut.radius + s * Math.tan(cut.taper) > 0))
    throw new RangeError('part of the tube passes beyond the tip of the cone');
  return z;
}

/**
 * The end of a tube with a wall, between the radii of its bore and its skin, mm, cut square to its skin and set on a round host: as
 * long as it can be without entering it, so it touches at the bore, or further out where it leans over the host. The host being convex,
 * so is the height along a radius, and its least is found between the two. Throws RangeError when the bore passes beside the host.
 */
export function seatedEnd(host: Extract<CutSurface, { kind: 'round' }>, bore: number, skin: number): TubeEnd {
  const along =
    (phi: number) =>
    (r: number): number =>
      entry(host, r, phi) ?? Number.POSITIVE_INFINITY;
  const height = (phi: number): number => {
    const at = along(phi);
    return Math.min(heightAt(host, bore, phi), at(skin), at(leastBetween(at, bore, skin)));
  };
  return { height, corners: tubeEnd([host], bore).corners };
}

/** a z2 + 2 b z + c = 0 where the line (x, y, z) meets a round skin, |d|2 - s2 = (R + s t)2 with s = d u; and b2 - a c. Own derivation. */
function quadratic(cut: Extract<CutSurface, { kind: 'round' }>, x: number, y: number) {
  const t = Math.tan(cut.taper);
  const d = sub([x, y, 0], cut.point);
  const s = dot(d, cut.axis);
  const u = cut.axis[2];
  const k = 1 + t * t;
  const a = 1 - u * u * k;
  const b = d[2] - s * u * k - cut.radius * t * u;
  const c = dot(d, d) - s * s * k - cut.radius ** 2 - 2 * cut.radius * t * s;
  return { a, b, square: b * b - a * c };
}

/** Angles where another cut becomes the first. */
function swaps(heights: readonly ((phi: number) => number)[]): number[] {
  const lowest = (phi: number): number => {
    const all = heights.map((h) => h(phi));
    const least = Math.min(...all);
    return all.findIndex((h) => h - least < 1e-9);
  };
  const found: number[] = [];
  for (let i = 0; i < PLACES; i++) {
    // Off the quarters, where symmetrical cuts meet.
    let [low, high] = [((i + 0.137) * TURN) / PLACES, ((i + 1.137) * TURN) / PLACES];
    const [before, after] = [lowest(low), lowest(high)];
    if (before === after) continue;
    const sooner = (phi: number): boolean => heights[before]!(phi) <= heights[after]!(phi);
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (sooner(middle)) low = middle;
      else high = middle;
    }
    found.push(((low + high) / 2) % TURN);
  }
  return found;
}

/** Angles where the generator comes nearest to grazing a round cut: there the edge turns sharply, for tubes of one size in a corner. */
function ridges(
  cut: Extract<CutSurface, { kind: 'round' }>,
  radius: number,
  heights: readonly ((phi: number) => number)[],
): number[] {
  const graze = (phi: number): number => quadratic(cut, radius * Math.cos(phi), radius * Math.sin(phi)).square;
  const found: number[] = [];
  for (let i = 0; i < PLACES; i++) {
    const at = (k: number): number => graze(((i + k) * TURN) / PLACES);
    if (!(at(0) <= at(-1) && at(0) < at(1))) continue;
    const phi = leastBetween(graze, ((i - 1) * TURN) / PLACES, ((i + 1) * TURN) / PLACES);
    const first = heights.every((h) => h(phi) >= heightAt(cut, radius, phi) - 1e-9);
    if (first && graze(phi) < 0.02 * cut.radius ** 2) found.push(((phi % TURN) + TURN) % TURN);
  }
  return found;
}

/** Where a function with one valley between two arguments is least, by golden section. */
export function leastBetween(f: (t: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  for (let i = 0; i < 70; i++) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    if (f(a) <= f(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
}
