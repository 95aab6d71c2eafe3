import { directionFrom, directionInto, type Frame } from '../geometry/frame.js';
import { add, cross, dot, perpendicularTo, rotateAbout, type Vec3 } from '../geometry/vec3.js';
import type { CollectorFreedom, CollectorPlan, Plan } from '../params/plan.js';
import { type Datum, worldAxesFrom } from './datum.js';
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

/** Every collector and the common length as planned. */
export const plannedVariation = (plan: Plan): Variation => ({
  shifts: plan.collectors.map(() => STILL),
  length: plan.runners.length,
});

/**
 * The planned variation first, then random ones within the plan's freedom. Draws go by the datum's order of collectors and of the
 * world's axes.
 */
export function startVariations(plan: Plan, datum: Datum, count: number, random: Random): Variation[] {
  const planned = plannedVariation(plan);
  if (!isFree(plan)) return [planned];
  const within = (lo: number, hi: number): number => lo + (hi - lo) * random();
  const others = Array.from(
    { length: count - 1 },
    (): Variation => ({
      shifts: byCollector(plan, datum, ({ freedom: f }) =>
        f
          ? {
              offset: byAxis(datum, f, within),
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

/** A shift for every collector of a plan, made in the datum's order. */
function byCollector(plan: Plan, datum: Datum, make: (c: CollectorPlan, i: number) => Shift): Shift[] {
  const made = new Map(datum.collectors.map((i) => [i, make(plan.collectors[i]!, i)]));
  return plan.collectors.map((_, i) => made.get(i)!);
}

/** An offset within a freedom, made axis by axis in the datum's order and senses, mm along the world's axes. */
function byAxis(
  datum: Datum,
  { from, to }: CollectorFreedom,
  make: (lo: number, hi: number, axis: 0 | 1 | 2, sense: 1 | -1) => number,
): Vec3 {
  const offset: [number, number, number] = [0, 0, 0];
  for (const { axis, sense } of worldAxesFrom(datum)) {
    const ends = sense > 0 ? [from[axis], to[axis]] : [-to[axis], -from[axis]];
    offset[axis] = sense * make(ends[0]!, ends[1]!, axis, sense);
  }
  return offset;
}

/** A variation moved at random by about `step` of the freedom there is, and brought back within it. */
export function movedVariation(plan: Plan, datum: Datum, v: Variation, step: number, random: Random): Variation {
  const between = (lo: number, hi: number, x: number): number =>
    Math.min(hi, Math.max(lo, x + normal(random) * step * (hi - lo)));
  return {
    shifts: byCollector(plan, datum, ({ freedom: f }, i) => {
      const s = v.shifts[i]!;
      if (!f) return s;
      const tilt: [number, number] = [between(-f.tilt, f.tilt, s.tilt[0]), between(-f.tilt, f.tilt, s.tilt[1])];
      const size = Math.hypot(...tilt);
      const back = size > f.tilt ? f.tilt / size : 1;
      return {
        offset: byAxis(datum, f, (lo, hi, axis, sense) => between(lo, hi, sense * s.offset[axis])),
        tilt: [tilt[0] * back, tilt[1] * back],
        turn: f.turns ? s.turn + normal(random) * step * Math.PI : 0,
      };
    }),
    length: plan.runners.band ? between(plan.runners.band.from, plan.runners.band.to, v.length) : v.length,
  };
}

/** The placement of a variation. */
export function placementOf(plan: Plan, datum: Datum, v: Variation): Placement {
  if (v.shifts.every((s) => s === STILL)) return { ...plannedPlacement(plan), length: v.length };
  return { frames: plan.collectors.map((c, i) => shifted(c, datum, v.shifts[i]!)), length: v.length };
}

/** The planned frame tilted about two directions across it, with its clocking, and turned about its own axis, all as seen from the datum. */
function shifted({ frame }: CollectorPlan, datum: Datum, s: Shift): Frame {
  if (s === STILL) return frame;
  const planned = directionInto(datum.frame, frame.z);
  const across = perpendicularTo(planned);
  const other = cross(planned, across);
  const tilted = (v: Vec3): Vec3 => rotateAbout(rotateAbout(v, across, s.tilt[0]), other, s.tilt[1]);
  const axis = tilted(planned);
  const towardsFirst = rotateAbout(tilted(directionInto(datum.frame, frame.x)), axis, s.turn);
  const z = directionFrom(datum.frame, axis);
  if (dot(z, frame.z) <= 0) return frame;
  const x = directionFrom(datum.frame, towardsFirst);
  return { origin: add(frame.origin, s.offset), x, y: cross(z, x), z };
}

export type { Variation };
