import type { Vec3 } from '../vec3.js';

/** Where two straight segments come closest: distance in mm, and how far along each, 0 to 1. */
export interface SegmentApproach {
  readonly distance: number;
  readonly s: number;
  readonly t: number;
}

const clamp01 = (x: number): number => Math.min(1, Math.max(0, x));

/**
 * Smallest distance between the segments p0-p1 and q0-q1, exact also for parallel and for point-like segments.
 * Method: Ericson, Real-Time Collision Detection (2005), section 5.1.9, closest points of two segments (from memory).
 */
export function segmentApproach(p0: Vec3, p1: Vec3, q0: Vec3, q1: Vec3): SegmentApproach {
  const dx = p1[0] - p0[0];
  const dy = p1[1] - p0[1];
  const dz = p1[2] - p0[2];
  const ex = q1[0] - q0[0];
  const ey = q1[1] - q0[1];
  const ez = q1[2] - q0[2];
  const rx = p0[0] - q0[0];
  const ry = p0[1] - q0[1];
  const rz = p0[2] - q0[2];
  const a = dx * dx + dy * dy + dz * dz;
  const e = ex * ex + ey * ey + ez * ez;
  const f = ex * rx + ey * ry + ez * rz;
  let s = 0;
  let t = 0;
  if (a > 0 && e > 0) {
    const c = dx * rx + dy * ry + dz * rz;
    const b = dx * ex + dy * ey + dz * ez;
    const denominator = a * e - b * b;
    s = denominator > 1e-14 * a * e ? clamp01((b * f - c * e) / denominator) : 0;
    t = (b * s + f) / e;
    if (t < 0) {
      t = 0;
      s = clamp01(-c / a);
    } else if (t > 1) {
      t = 1;
      s = clamp01((b - c) / a);
    }
  } else if (e > 0) {
    t = clamp01(f / e);
  } else if (a > 0) {
    s = clamp01(-(dx * rx + dy * ry + dz * rz) / a);
  }
  const x = rx + dx * s - ex * t;
  const y = ry + dy * s - ey * t;
  const z = rz + dz * s - ez * t;
  return { distance: Math.sqrt(x * x + y * y + z * z), s, t };
}
