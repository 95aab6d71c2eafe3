import { radians } from '../../geometry/angle.js';
import { type Frame, frameAlong } from '../../geometry/frame.js';
import { DEFAULTS } from '../defaults.js';
import type { PlanPath } from '../faults/plan-problem.js';
import type { PlanFile } from '../schema/plan-file.js';

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
