import type { BranchPlan, CollectorFreedom, CollectorPlan, InletOrder } from '../plan.js';
import type { TubeSize } from '../tube-growth.js';
import { collectorOutlet } from './collector-outlet.js';
import { mergeHalfAngleOf, type PlacedCollector } from './collectors.js';
import { inOrder } from './corners.js';

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
