import { add, along, cross, dot, perpendicularTo, rotateAbout, type Vec3 } from './vec3.js';

/** A place with an axis and a clocking: right-handed unit axes x, y, z at an origin. A port, an inlet, a joint is one. */
export interface Frame {
  /** Where it stands, mm. */
  readonly origin: Vec3;
  /** Unit vector. */
  readonly x: Vec3;
  /** Unit vector. */
  readonly y: Vec3;
  /** Unit vector. */
  readonly z: Vec3;
}

export const WORLD: Frame = { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

/**
 * Frame with z along a unit axis. Its y points as near to +y of the world as the axis allows (+x for an axis along y),
 * then x and y are turned by `clocking` rad about z, right-handed.
 */
export function frameAlong(origin: Vec3, axis: Vec3, clocking = 0): Frame {
  const y = rotateAbout(perpendicularTo(axis), axis, clocking);
  return { origin, x: cross(y, axis), y, z: axis };
}

/** Frame with z along a unit axis and y as near as can be to a given direction not parallel to it. */
export function frameFacing(origin: Vec3, axis: Vec3, towards: Vec3): Frame {
  const flat = along(towards, axis, -dot(towards, axis));
  const l = Math.sqrt(dot(flat, flat));
  const y: Vec3 = l > 1e-12 ? [flat[0] / l, flat[1] / l, flat[2] / l] : perpendicularTo(axis);
  return { origin, x: cross(y, axis), y, z: axis };
}

/** World direction of a direction given in the frame. */
export function directionFrom(frame: Frame, v: Vec3): Vec3 {
  return [
    frame.x[0] * v[0] + frame.y[0] * v[1] + frame.z[0] * v[2],
    frame.x[1] * v[0] + frame.y[1] * v[1] + frame.z[1] * v[2],
    frame.x[2] * v[0] + frame.y[2] * v[1] + frame.z[2] * v[2],
  ];
}

/** World point of a point given in the frame, mm. */
export const pointFrom = (frame: Frame, p: Vec3): Vec3 => add(frame.origin, directionFrom(frame, p));

/** Direction in the frame of a world direction. */
export const directionInto = (frame: Frame, v: Vec3): Vec3 => [dot(frame.x, v), dot(frame.y, v), dot(frame.z, v)];

/** Point in the frame of a world point, mm. */
export function pointInto(frame: Frame, p: Vec3): Vec3 {
  return directionInto(frame, [p[0] - frame.origin[0], p[1] - frame.origin[1], p[2] - frame.origin[2]]);
}

/** The inner frame, given in the outer one, as a world frame. */
export function frameFrom(outer: Frame, inner: Frame): Frame {
  return {
    origin: pointFrom(outer, inner.origin),
    x: directionFrom(outer, inner.x),
    y: directionFrom(outer, inner.y),
    z: directionFrom(outer, inner.z),
  };
}

/** The frame moved by d mm along its own z. */
export const advance = (frame: Frame, d: number): Frame => ({ ...frame, origin: along(frame.origin, frame.z, d) });

/** Column-major 4 x 4 matrix that takes frame coordinates to the world. */
export function matrixOf(f: Frame): readonly number[] {
  return [...f.x, 0, ...f.y, 0, ...f.z, 0, ...f.origin, 1];
}

/** Frame with x, y, z of a 3 x 3 rotation inverted: takes world coordinates to those of `frame`. */
export function inverseFrame(frame: Frame): Frame {
  const origin = pointInto(frame, [0, 0, 0]);
  return {
    origin,
    x: [frame.x[0], frame.y[0], frame.z[0]],
    y: [frame.x[1], frame.y[1], frame.z[1]],
    z: [frame.x[2], frame.y[2], frame.z[2]],
  };
}
