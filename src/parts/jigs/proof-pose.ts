import { type Frame, pointFrom } from '../../geometry/frame.js';
import { inletFrames, ringRadius } from '../../geometry/merge/inlet-ring.js';
import { angleBetween, distance, unit, type Vec3 } from '../../geometry/vec3.js';
import { inletCount, inletTube } from '../../params/collector/inlet-tube.js';
import type { CollectorPlan, Plan } from '../../params/plan.js';
import { collectorFiles } from '../printed-part.js';
import { circleThrough } from './proof-circle.js';
import { pointsNear } from './proof-section.js';
import type { StandingPart } from './standing-part.js';

/** One inlet of a collector as its printed holder has it, against the plan. */
export interface PoseProof {
  readonly collector: string;
  /** From 1. */
  readonly inlet: number;
  /** Distance of the middle of the holder's round end from the inlet, mm, and turn of its axis, rad; null where no round end was found. */
  readonly place: number | null;
  readonly turn: number | null;
}

/** How far from where it should be a round end is looked for, mm. */
const CAPTURE = 2;

/** The inlets of every collector that has a holder, recovered from the rings of points its meshes end in. */
export function posesOf(plan: Plan, standing: readonly StandingPart[]): PoseProof[] {
  const files = collectorFiles(plan.collectors);
  return plan.collectors.flatMap((c, i) => {
    const name = plan.collectors.length === 1 ? 'holder' : `holder-${files[i]!}`;
    const holder = standing.filter((s) => s.part.name === name || s.part.name.startsWith(`${name}-part`));
    if (holder.length === 0) return [];
    const { od } = inletTube(plan, c);
    return inletsOf(c, od).map((inlet, k) => ({ collector: c.name, inlet: k + 1, ...measured(inlet, od / 2, holder) }));
  });
}

function inletsOf(c: CollectorPlan, od: number): Frame[] {
  const count = inletCount(c);
  return inletFrames(c.frame, count, ringRadius(count, od, c.inletGap), count === 1 ? 0 : c.mergeHalfAngle);
}

function measured(inlet: Frame, radius: number, holder: readonly StandingPart[]): Pick<PoseProof, 'place' | 'turn'> {
  const points = holder.flatMap((h) => pointsNear(h.mesh, inlet, CAPTURE, [radius - CAPTURE, radius + CAPTURE]));
  const circle = circleThrough(points.map(([x, y]) => [x, y]));
  if (circle === null) return { place: null, turn: null };
  const [x, y] = circle.centre;
  const own = points.filter((p) => Math.abs(Math.hypot(p[0] - x, p[1] - y) - circle.radius) <= circle.worst + 1e-9);
  const plane = planeThrough(own);
  if (plane === null) return { place: null, turn: null };
  const centre: Vec3 = [x, y, plane.at + plane.slope[0] * x + plane.slope[1] * y];
  const axis = unit([-plane.slope[0], -plane.slope[1], 1]);
  return { place: distance(pointFrom(inlet, centre), inlet.origin), turn: angleBetween(axis, [0, 0, 1]) };
}

/** z = at + slope . (x, y), least squares; null for fewer than three points or points on a line. */
function planeThrough(points: readonly Vec3[]): { at: number; slope: readonly [number, number] } | null {
  const n = points.length;
  if (n < 3) return null;
  const mean = [0, 1, 2].map((k) => points.reduce((s, p) => s + p[k]!, 0) / n);
  let [xx, xy, yy, xz, yz] = [0, 0, 0, 0, 0];
  for (const p of points) {
    const [x, y, z] = [p[0] - mean[0]!, p[1] - mean[1]!, p[2] - mean[2]!];
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * z;
    yz += y * z;
  }
  const det = xx * yy - xy * xy;
  if (!(det > 1e-9 * xx * yy)) return null;
  const slope = [(xz * yy - yz * xy) / det, (yz * xx - xz * xy) / det] as const;
  return { at: mean[2]! - slope[0] * mean[0]! - slope[1] * mean[1]!, slope };
}
