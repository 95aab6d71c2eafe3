import { radians } from '../../geometry/angle.js';
import { type Frame, frameAlong } from '../../geometry/frame.js';
import { DEFAULTS } from '../defaults.js';
import type { CollectorPlan, InletOrder } from '../plan.js';
import type { PlanPath } from '../plan-problem.js';
import type { PlanFile } from '../schema/plan-file.js';

/** One collector of the file, placed in the world, with the cylinders it joins. */
export interface PlacedCollector {
  readonly name: string;
  /** In cylinder order. */
  readonly cylinders: readonly number[];
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
  const place = (section: NonNullable<PlanFile['collector']>, cylinders: readonly number[], path: PlanPath) => ({
    name: section.name,
    cylinders: [...cylinders].sort((a, b) => a - b),
    frame: frameAlong(section.at, section.direction, section.clocking),
    section,
    path,
  });
  if (collector !== undefined) return [place(collector, collector.cylinders ?? portCylinders, ['collector'])];
  return collectors.map((section, i) => place(section, section.cylinders, ['collectors', i]));
}

/** A collector as later stages see it. `tubeWall` in mm stands in for a missing outlet wall. */
export function collectorPlan(placed: PlacedCollector, tubeWall: number): CollectorPlan {
  const { name, cylinders, frame, section } = placed;
  const several = cylinders.length > 1;
  return {
    name,
    cylinders,
    from: [],
    frame,
    inletGap: section.gap,
    mergeHalfAngle: section.merge_half_angle ?? (several ? radians(DEFAULTS.collector.merge_half_angle) : 0),
    order: inletOrder(section.order),
    outlet: {
      od: section.outlet.od,
      wall: section.outlet.wall ?? tubeWall,
      coneLength: section.outlet.cone_length,
      tail: section.outlet.tail,
    },
    freedom: null,
  };
}

function inletOrder(order: PlacedCollector['section']['order']): InletOrder {
  return typeof order === 'string' ? { kind: order } : { kind: 'given', cylinders: order };
}
