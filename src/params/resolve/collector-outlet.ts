import { mergeEndRadius } from '../collector/merge-bore.js';
import { coneLengthAt } from '../collector/outlet-length.js';
import type { CollectorOutlet, ThroatPlan } from '../plan.js';
import type { TubeSize } from '../tube-growth.js';
import { mergeHalfAngleOf, type PlacedCollector, placedInlets } from './collectors.js';

/** The outlet of a collector as later stages see it: lengths that follow from half-angles worked out. `wall` is the outlet's, mm. */
export function collectorOutlet(placed: PlacedCollector, wall: number, joining: TubeSize): CollectorOutlet {
  const { outlet } = placed.section;
  const throat = throatOf(placed, wall);
  const end = throat === null ? outlet.od / 2 - wall : throat.bore / 2;
  return {
    od: outlet.od,
    wall,
    coneLength: outlet.cone_length ?? coneLengthAt(mergeEndOf(placed, joining), end, outlet.cone_half_angle!),
    tail: outlet.tail,
    throat,
  };
}

/** Radius of the circle with the area of the joined bores where the cone begins, mm. */
export const mergeEndOf = (placed: PlacedCollector, { od, wall }: TubeSize): number =>
  mergeEndRadius({
    count: placedInlets(placed),
    od,
    wall,
    gap: placed.section.gap,
    halfAngle: mergeHalfAngleOf(placed),
  });

function throatOf({ section }: PlacedCollector, wall: number): ThroatPlan | null {
  const { kind, od, throat, throat_length: length = 0, diffuser } = section.outlet;
  if (kind === 'cone' || throat === undefined) return null;
  const widens = od / 2 - wall - throat / 2;
  const by = diffuser?.half_angle;
  const diffuserLength = diffuser?.length ?? (by === undefined ? 0 : coneLengthAt(widens, 0, by));
  return { bore: throat, length, diffuserLength };
}
