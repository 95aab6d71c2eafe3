import type { Vec2 } from '../vec2.js';

/** A B-spline curve in the plane, mm; rational where weights are given. */
export interface Spline {
  readonly degree: number;
  readonly knots: readonly number[];
  readonly points: readonly Vec2[];
  /** All positive; empty for all 1. */
  readonly weights: readonly number[];
}

/** A point times its weight, and the weight. */
type Weighted = readonly [x: number, y: number, w: number];

/** Halvings of one span at most. */
const DEEPEST = 16;

/** Throws RangeError in words unless knots, control points and weights belong together. */
function validateSpline({ degree, knots, points, weights }: Spline): void {
  if (!Number.isInteger(degree) || degree < 1 || degree > 10) throw new RangeError(`a degree of ${degree} is not read`);
  if (points.length <= degree) {
    throw new RangeError(`${points.length} control points are too few for a spline of degree ${degree}`);
  }
  if (knots.length !== points.length + degree + 1) {
    throw new RangeError(
      `expected ${points.length + degree + 1} knots for ${points.length} control points of degree ${degree}, found ${knots.length}`,
    );
  }
  if (knots.some((k, i) => i > 0 && k < knots[i - 1]!)) throw new RangeError('its knots run backwards');
  if (!(knots[points.length]! > knots[degree]!)) throw new RangeError('its knots leave it no length');
  if (weights.length !== 0 && weights.length !== points.length) {
    throw new RangeError(`expected ${points.length} weights, found ${weights.length}`);
  }
  if (weights.some((w) => !(w > 0))) throw new RangeError('a weight is not above zero');
}

/**
 * Points of a spline, first and last included, so that the curve leaves the lines between them by `error` mm at most: each span is
 * taken as its Bezier polygon, which holds the curve, and halved until that polygon is so flat. Bezier points by blossoming
 * (Ramshaw, Blossoming: a connect-the-dots approach to splines, 1987, from memory). Throws RangeError as validateSpline does, and for more than `most` points.
 */
export function splinePoints(spline: Spline, error: number, most: number): readonly Vec2[] {
  validateSpline(spline);
  const { degree, knots, points } = spline;
  const out: Vec2[] = [];
  for (let i = degree; i < points.length; i++) {
    if (!(knots[i + 1]! > knots[i]!)) continue;
    const bezier = bezierOf(spline, i);
    if (out.length === 0) out.push(plain(bezier[0]!));
    flatten(bezier, error, DEEPEST, out);
    if (out.length > most) throw new RangeError(`it takes more than ${most} points to follow within ${error} mm`);
  }
  return out;
}

const plain = ([x, y, w]: Weighted): Vec2 => [x / w, y / w];

const mix = (a: Weighted, b: Weighted, t: number): Weighted => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];

/** The Bezier points of the span between knots i and i + 1: the blossom at k times its end and the other times its start. */
function bezierOf({ degree, knots, points, weights }: Spline, i: number): readonly Weighted[] {
  const [start, end] = [knots[i]!, knots[i + 1]!];
  const control = Array.from({ length: degree + 1 }, (_, k): Weighted => {
    const [x, y] = points[i - degree + k]!;
    const w = weights[i - degree + k] ?? 1;
    return [x * w, y * w, w];
  });
  return Array.from({ length: degree + 1 }, (_, ends) => {
    let level = control;
    for (let r = 1; r <= degree; r++) {
      const t = r <= ends ? end : start;
      level = level.slice(1).map((b, k) => {
        const low = knots[i - degree + k + r]!;
        const high = knots[i + k + 1]!;
        return mix(level[k]!, b, (t - low) / (high - low));
      });
    }
    return level[0]!;
  });
}

function flatten(bezier: readonly Weighted[], error: number, depth: number, out: Vec2[]): void {
  const corners = bezier.map(plain);
  const last = corners[corners.length - 1]!;
  if (depth === 0 || isFlat(corners, error)) {
    out.push(last);
    return;
  }
  const [left, right] = halves(bezier);
  flatten(left, error, depth - 1, out);
  flatten(right, error, depth - 1, out);
}

/** True when every corner lies within `error` of the line from the first to the last. */
function isFlat(corners: readonly Vec2[], error: number): boolean {
  const [a, b] = [corners[0]!, corners[corners.length - 1]!];
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  return corners.slice(1, -1).every((p) => {
    const t = square === 0 ? 0 : Math.min(Math.max(((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square, 0), 1);
    return Math.hypot(p[0] - a[0] - dx * t, p[1] - a[1] - dy * t) <= error;
  });
}

/** De Casteljau at the middle. */
function halves(bezier: readonly Weighted[]): readonly [readonly Weighted[], readonly Weighted[]] {
  const left: Weighted[] = [];
  const right: Weighted[] = [];
  let level = bezier;
  while (level.length > 0) {
    left.push(level[0]!);
    right.unshift(level[level.length - 1]!);
    const before = level;
    level = before.slice(1).map((b, k) => mix(before[k]!, b, 0.5));
  }
  return [left, right];
}
