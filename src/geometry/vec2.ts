/** A point or direction in a plane, mm. */
export type Vec2 = readonly [x: number, y: number];

export const add2 = (a: Vec2, b: Vec2): Vec2 => [a[0] + b[0], a[1] + b[1]];
export const sub2 = (a: Vec2, b: Vec2): Vec2 => [a[0] - b[0], a[1] - b[1]];
export const scale2 = (a: Vec2, k: number): Vec2 => [a[0] * k, a[1] * k];
export const dot2 = (a: Vec2, b: Vec2): number => a[0] * b[0] + a[1] * b[1];
export const cross2 = (a: Vec2, b: Vec2): number => a[0] * b[1] - a[1] * b[0];
export const length2 = (a: Vec2): number => Math.hypot(a[0], a[1]);
export const distance2 = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
export const lerp2 = (a: Vec2, b: Vec2, t: number): Vec2 => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
export const rotate2 = (a: Vec2, cos: number, sin: number): Vec2 => [a[0] * cos - a[1] * sin, a[0] * sin + a[1] * cos];

/** Unit vector along a. Throws RangeError for the zero vector. */
export function unit2(a: Vec2): Vec2 {
  const l = length2(a);
  if (!(l > 0)) throw new RangeError('a direction of zero length has no unit vector');
  return [a[0] / l, a[1] / l];
}
