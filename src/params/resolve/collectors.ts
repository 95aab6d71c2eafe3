import { radians } from '../../geometry/angle.js';
import { type Frame, frameAlong } from '../../geometry/frame.js';
import { DEFAULTS } from '../defaults.js';
import type { BranchPlan, CollectorFreedom, CollectorPlan, InletOrder } from '../plan.js';
import type { PlanPath } from '../plan-problem.js';
import type { PlanFile } from '../schema/plan-file.js';
import type { TubeSize } from '../tube-growth.js';
import { collectorOutlet } from './collector-outlet.js';
import { inOrder } from './corners.js';

/** One collector of the file, placed in the world, with the cylinders it joins or the collectors that feed it. */
export interface PlacedCollector {
  readonly name: string;
  /** In cylinder order. */
  readonly cylinders: readonly number[];
  /** As the file lists them. */
  readonly from: readonly string[];
  readonly frame: Frame;
  readonly section: NonNullable<PlanFile['collector']>;
  readonly path: PlanPath;
}

/** The collectors of a plan. The one `collector` joins every port's cylinder unless it lists its own. */
export function placedCollectors(
  sections: Pick<Partial<PlanFile>, 'collector' | 'collectors'>,
  portCylinders: readonly number[],
): readonly PlacedCollector[] {
  const { collector, collectors = [] } = sections;
  const place = (
    section: NonNullable<PlanFile['collector']>,
    cylinders: readonly number[],
    from: readonly string[],
    path: PlanPath,
  ) => ({
    name: section.name,
    cylinders: [...cylinders].sort((a, b) => a - b),
    from,
    frame: frameAlong(section.at, section.direction, section.clocking),
    section,
    path,
  });
  if (collector !== undefined) return [place(collector, collector.cylinders ?? portCylinders, [], ['collector'])];
  return collectors.map((section, i) => place(section, section.cylinders ?? [], section.from ?? [], ['collectors', i]));
}

/** Tubes that join here. */
export const placedInlets = (c: PlacedCollector): number => c.cylinders.length + c.from.length;

/** True for a collector whose gas runs on to another. */
export const feedsAnother = (c: PlacedCollector, all: readonly PlacedCollector[]): boolean =>
  all.some((other) => other !== c && other.from.includes(c.name));

/** Angle between an inlet and the axis, rad. */
export const mergeHalfAngleOf = (placed: PlacedCollector): number =>
  placed.section.merge_half_angle ?? (placedInlets(placed) > 1 ? radians(DEFAULTS.collector.merge_half_angle) : 0);

/** A collector as later stages see it, for the tube that joins it. `wall` in mm stands in for a missing outlet wall. */
export function collectorPlan(placed: PlacedCollector, wall: number, joining: TubeSize): CollectorPlan {
  const { name, cylinders, from, frame, section } = placed;
  const outletWall = section.outlet.wall ?? wall;
  return {
    name,
    cylinders,
    from,
    frame,
    inletGap: section.gap,
    mergeHalfAngle: mergeHalfAngleOf(placed),
    order: inletOrder(placed),
    outlet: collectorOutlet(placed, outletWall, joining),
    centre: section.centre,
    slip: section.slip ?? null,
    branch: branchOf(section.branch, outletWall),
    freedom: freedomOf(section.freedom),
  };
}

const branchOf = (branch: PlacedCollector['section']['branch'], wall: number): BranchPlan | null =>
  branch === undefined ? null : { ...branch, wall: branch.wall ?? wall };

/** An order by the names of collectors counts them from 1 as `from` lists them. */
function inletOrder({ section, from }: PlacedCollector): InletOrder {
  const { order } = section;
  if (typeof order === 'string') return { kind: order };
  return { kind: 'given', cylinders: order.map((who) => (typeof who === 'number' ? who : from.indexOf(who) + 1)) };
}

/** Null when nothing may move. */
function freedomOf(freedom: PlacedCollector['section']['freedom']): CollectorFreedom | null {
  if (freedom === undefined) return null;
  const { from, to } = inOrder(freedom.from, freedom.to);
  const { tilt, turns } = freedom;
  const fixed = tilt === 0 && !turns && from.every((v, i) => v === to[i]);
  return fixed ? null : { from, to, tilt, turns };
}
