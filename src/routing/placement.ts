import { type Frame, frameAlong } from '../geometry/frame.js';
import { add, cross, dot, perpendicularTo, rotateAbout, signedAngle, type Vec3 } from '../geometry/vec3.js';
import type { CollectorPlan, Plan } from '../params/plan.js';
import { type Placement, plannedPlacement } from './problem.js';
import { normal, type Random } from './random.js';

/** A placement by what may vary: offset, tilt and turn of every collector against its plan, and the common length. mm and rad. */
interface Variation {
  readonly shifts: readonly Shift[];
  readonly length: number;
}

interface Shift {
  readonly offset: Vec3;
  /** Tilt of the axis about two directions across it. */
  readonly tilt: readonly [number, number];
  readonly turn: number;
}

const STILL: Shift = { offset: [0, 0, 0], tilt: [0, 0], turn: 0 };

/** True when the plan leaves the solver anything to place. */
export const isFree = (plan: Plan): boolean => plan.runners.band !== null || plan.collectors.some((c) => c.freedom);

/** The planned variation first, then random ones within the plan's freedom. */
export function startVariations(plan: Plan, count: number, random: Random): Variation[] {
  const planned: Variation = { shifts: plan.collectors.map(() => STILL), length: plan.runners.length };
  if (!isFree(plan)) return [planned];
  const within = (lo: number, hi: number): number => lo + (hi - lo) * random();
  const others = Array.from(
    { length: count - 1 },
    (): Variation => ({
      shifts: plan.collectors.map(({ freedom: f }) =>
        f
          ? {
              offset: [within(f.from[0], f.to[0]), within(f.from[1], f.to[1]), within(f.from[2], f.to[2])],
              tilt: [within(-f.tilt, f.tilt) / Math.SQRT2, within(-f.tilt, f.tilt) / Math.SQRT2],
              turn: f.turns ? within(-Math.PI, Math.PI) : 0,
            }
          : STILL,
      ),
      length: plan.runners.band ? within(plan.runners.band.from, plan.runners.band.to) : plan.runners.length,
    }),
  );
  return [planned, ...others];
}

/** A variation moved at random by about `step` of the freedom there is, and brought back within it. */
export function movedVariation(plan: Plan, v: Variation, step: number, random: Random): Variation {
  const between = (lo: number, hi: number, x: number): number =>
    Math.min(hi, Math.max(lo, x + normal(random) * step * (hi - lo)));
  return {
    shifts: plan.collectors.map(({ freedom: f }, i) => {
      const s = v.shifts[i]!;
      if (!f) return s;
      const tilt: [number, number] = [between(-f.tilt, f.tilt, s.tilt[0]), between(-f.tilt, f.tilt, s.tilt[1])];
      const size = Math.hypot(...tilt);
      const back = size > f.tilt ? f.tilt / size : 1;
      return {
        offset: [
          between(f.from[0], f.to[0], s.offset[0]),
          between(f.from[1], f.to[1], s.offset[1]),
          between(f.from[2], f.to[2], s.offset[2]),
        ],
        tilt: [tilt[0] * back, tilt[1] * back],
        turn: f.turns ? s.turn + normal(random) * step * Math.PI : 0,
      };
    }),
    length: plan.runners.band ? between(plan.runners.band.from, plan.runners.band.to, v.length) : v.length,
  };
}

/** The placement of a variation. */
export function placementOf(plan: Plan, v: Variation): Placement {
  if (v.shifts.every((s) => s === STILL)) return { ...plannedPlacement(plan), length: v.length };
  return { frames: plan.collectors.map((c, i) => shifted(c, v.shifts[i]!)), length: v.length };
}

function shifted({ frame }: CollectorPlan, s: Shift): Frame {
  if (s === STILL) return frame;
  const across = perpendicularTo(frame.z);
  const other = cross(frame.z, across);
  const axis = rotateAbout(rotateAbout(frame.z, across, s.tilt[0]), other, s.tilt[1]);
  // the planned clocking, as an angle against the frame an axis has by itself, is kept
  const plain = frameAlong(frame.origin, frame.z);
  const clocking = signedAngle(plain.y, frame.y, frame.z);
  const turned = frameAlong(add(frame.origin, s.offset), axis, clocking + s.turn);
  return dot(turned.z, frame.z) > 0 ? turned : frame;
}

export type { Variation };
