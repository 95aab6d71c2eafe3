import { type Frame, frameFacing } from '../frame.js';
import type { Vec3 } from '../vec3.js';

/**
 * Frame of a branch in the frame of the pipe it leaves: origin on the pipe's axis `at` mm along it, z the way out, `angle` rad
 * off the pipe's way, its plane turned by `clocking` rad about the pipe from x; y leans against the pipe's way, so that the
 * branch's own heel (the short side of its saddle) lies at -y.
 */
export function branchFrame(at: number, angle: number, clocking: number): Frame {
  const [s, c] = [Math.sin(angle), Math.cos(angle)];
  const out: Vec3 = [s * Math.cos(clocking), s * Math.sin(clocking), c];
  return frameFacing([0, 0, at], out, [c * Math.cos(clocking), c * Math.sin(clocking), -s]);
}

/**
 * Where a branch's outside of `radius` mm first and last meets a round pipe of `host` mm radius, mm along the pipe: at its
 * generators nearest and farthest. `at` + host / tan(angle) -+ radius / sin(angle).
 */
export function saddleSpan(
  at: number,
  angle: number,
  radius: number,
  host: number,
): readonly [from: number, to: number] {
  const middle = at + host / Math.tan(angle);
  return [middle - radius / Math.sin(angle), middle + radius / Math.sin(angle)];
}

/** Shortest branch, mm from the pipe's axis along its own, whose end face stands clear of a round pipe of `host` mm radius by `stand` mm. */
export const leastBranch = (angle: number, radius: number, host: number, stand: number): number =>
  (host + stand + radius * Math.abs(Math.cos(angle))) / Math.sin(angle);
