import { type Side, sideBetween } from '../outline/sides.js';
import type { Vec2 } from '../vec2.js';

/** Widest arc laid through points, as half its included angle, rad: three quarters of a turn keep the bulge well conditioned. */
const MOST_HALF_ANGLE = 0.75 * Math.PI;

/** Where points stand further apart than the tolerance shows, an arc may still pass through them when it has so many, and turns so little from one to the next, rad. */
const COARSE = { points: 6, turn: Math.PI / 15, sagitta: 10, uneven: 2 } as const;

/** A run of points, as coordinates in mm. */
export interface Run {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Distance along the run from its first point, mm. */
  readonly along: Float64Array;
}

export function runOf(points: readonly Vec2[]): Run {
  const x = Float64Array.from(points, (p) => p[0]);
  const y = Float64Array.from(points, (p) => p[1]);
  const along = new Float64Array(points.length);
  for (let i = 1; i < along.length; i++) along[i] = along[i - 1]! + Math.hypot(x[i]! - x[i - 1]!, y[i]! - y[i - 1]!);
  return { x, y, along };
}

/** A line or arc between two points of a run, by half its included angle, rad, positive counter-clockwise; and its largest deviation, mm. */
export interface Fit {
  readonly half: number;
  readonly deviation: number;
}

export const sideOfFit = ({ x, y }: Run, from: number, to: number, { half }: Fit): Side =>
  sideBetween([x[from]!, y[from]!], [x[to]!, y[to]!], Math.tan(half / 2));

/**
 * True when one line or arc from point `from` to point `to` of a run passes every point between within `tolerance` mm, in their
 * order, and does not leave the lines between them by more.
 */
export const holds = (run: Run, from: number, to: number, tolerance: number): boolean =>
  halfAngle(run, from, to, tolerance) !== null;

/** The line or arc between two points of a run that passes nearest to those between, or null when none holds the tolerance. */
export function bestFit(run: Run, from: number, to: number, tolerance: number): Fit | null {
  const any = halfAngle(run, from, to, tolerance);
  if (any === null) return null;
  const least = leastDeviation(run, from, to, tolerance);
  const half = least !== null && follows(run, from, to, least, tolerance) ? least : any;
  const chord = Math.hypot(run.x[to]! - run.x[from]!, run.y[to]! - run.y[from]!);
  const sagitta = (chord / 2) * Math.tan(Math.abs(half) / 2);
  // What rises by less than the tolerance is noise on a line wherever a line holds too.
  const chosen = sagitta < tolerance && follows(run, from, to, 0, tolerance) ? 0 : half;
  return { half: chosen, deviation: deviationOf(run, from, to, chosen) };
}

function halfAngle(run: Run, from: number, to: number, tolerance: number): number | null {
  if (to === from + 1) return 0;
  const range = rangeOf(run, from, to, tolerance);
  if (range === null) return null;
  const middle = (range[0] + range[1]) / 2;
  if (follows(run, from, to, middle, tolerance)) return middle;
  return range[0] <= 0 && range[1] >= 0 && follows(run, from, to, 0, tolerance) ? 0 : null;
}

/**
 * Half angles, rad, of the arcs through both ends whose circle passes every point between within `tolerance`; null when there are none.
 * The arcs through two points a distance 2h apart form a pencil. With x along the chord from its middle and y to its right, the
 * circle of half angle f is tangent to the disc of radius t about (x, y) where B sin f - 2 y h cos f = +-2 t h,
 * B = h^2 + t^2 - x^2 - y^2: so f lies within asin(2 t h / M) of atan2(2 y h, B), M = hypot(B, 2 y h). Own derivation.
 */
function rangeOf(run: Run, from: number, to: number, tolerance: number): readonly [number, number] | null {
  const { x, y } = run;
  const dx = x[to]! - x[from]!;
  const dy = y[to]! - y[from]!;
  const chord = Math.hypot(dx, dy);
  if (!(chord > tolerance)) return null;
  const h = chord / 2;
  const [ux, uy] = [dx / chord, dy / chord];
  const [mx, my] = [(x[from]! + x[to]!) / 2, (y[from]! + y[to]!) / 2];
  let low = -MOST_HALF_ANGLE;
  let high = MOST_HALF_ANGLE;
  for (let i = from + 1; i < to; i++) {
    const [px, py] = [x[i]! - mx, y[i]! - my];
    const a = px * ux + py * uy;
    const b = px * uy - py * ux;
    const cos = h * h + tolerance * tolerance - a * a - b * b;
    const sin = 2 * b * h;
    const reach = (2 * tolerance * h) / Math.hypot(cos, sin);
    if (reach >= 1) continue;
    const about = Math.atan2(sin, cos);
    const within = Math.asin(reach);
    if (about - within > low) low = about - within;
    if (about + within < high) high = about + within;
    if (low > high) return null;
  }
  return [low, high];
}

/** The half angle of least deviation by halving the tolerance, or null. */
function leastDeviation(run: Run, from: number, to: number, tolerance: number): number | null {
  let [low, high] = [0, tolerance];
  let best: number | null = null;
  for (let i = 0; i < 14; i++) {
    const middle = (low + high) / 2;
    const range = rangeOf(run, from, to, middle);
    if (range === null) low = middle;
    else {
      high = middle;
      best = (range[0] + range[1]) / 2;
    }
  }
  return best;
}

/** Signed distances of a line or arc from points of a run: positive where it passes on its outer side; and how far along it they lie, mm. */
function measured(run: Run, from: number, to: number, half: number): (i: number) => { off: number; along: number } {
  const { x, y } = run;
  const dx = x[to]! - x[from]!;
  const dy = y[to]! - y[from]!;
  const chord = Math.hypot(dx, dy);
  if (Math.abs(half) < 1e-9) {
    return (i) => {
      const [px, py] = [x[i]! - x[from]!, y[i]! - y[from]!];
      return { off: (px * dy - py * dx) / chord, along: (px * dx + py * dy) / chord };
    };
  }
  const way = Math.sign(half);
  const radius = chord / 2 / Math.sin(Math.abs(half));
  const toCentre = chord / 2 / Math.tan(half);
  const cx = (x[from]! + x[to]!) / 2 - (dy / chord) * toCentre;
  const cy = (y[from]! + y[to]!) / 2 + (dx / chord) * toCentre;
  const middle = Math.atan2(-dx * way, dy * way);
  return (i) => {
    const [px, py] = [x[i]! - cx, y[i]! - cy];
    let turn = (Math.atan2(py, px) - middle) * way;
    turn -= 2 * Math.PI * Math.round(turn / (2 * Math.PI));
    return { off: radius - Math.hypot(px, py), along: (turn + Math.abs(half)) * radius };
  };
}

/** True when the points lie along the curve in order within `tolerance` mm, and the curve bulges over the lines between them by no more, or little enough to be the arc they stand on. */
function follows(run: Run, from: number, to: number, half: number, tolerance: number): boolean {
  const at = measured(run, from, to, half);
  const chord = Math.hypot(run.x[to]! - run.x[from]!, run.y[to]! - run.y[from]!);
  const radius = Math.abs(half) < 1e-9 ? Number.POSITIVE_INFINITY : chord / 2 / Math.sin(Math.abs(half));
  const usual = (run.along[to]! - run.along[from]!) / (to - from);
  let before = { off: 0, along: 0 };
  let furthest = 0;
  for (let i = from + 1; i <= to; i++) {
    const here = i === to ? { off: 0, along: at(to).along } : at(i);
    if (Math.abs(here.off) > tolerance * (1 + 1e-9) || here.along < furthest - 2 * tolerance) return false;
    const gap = run.along[i]! - run.along[i - 1]!;
    const sagitta = (gap * gap) / (8 * radius);
    if (bulgeOver(before.off, here.off, sagitta) > tolerance * (1 + 1e-9)) {
      const coarse =
        to - from + 1 >= COARSE.points &&
        gap <= COARSE.turn * radius &&
        sagitta <= COARSE.sagitta * tolerance &&
        gap <= COARSE.uneven * usual;
      if (!coarse) return false;
    }
    furthest = Math.max(furthest, here.along);
    before = here;
  }
  return true;
}

/** Largest distance of an arc beyond the chord of two points that it passes at distances a and b: of a + (b - a) s + 4 sagitta s (1 - s). */
function bulgeOver(a: number, b: number, sagitta: number): number {
  if (sagitta === 0 || Math.abs(b - a) >= 4 * sagitta) return Math.max(a, b);
  return (a + b) / 2 + sagitta + (b - a) ** 2 / (16 * sagitta);
}

function deviationOf(run: Run, from: number, to: number, half: number): number {
  const at = measured(run, from, to, half);
  let most = 0;
  for (let i = from + 1; i < to; i++) most = Math.max(most, Math.abs(at(i).off));
  return most;
}
