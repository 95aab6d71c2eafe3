import { outlineContains } from '../geometry/outline/contains.js';
import { pointToOutline } from '../geometry/outline/distance.js';
import { type LengthWords, lengthsIn } from '../params/faults/wording.js';
import type { Plan } from '../params/plan.js';
import { BOLT_HEADS } from '../params/tables/bolt-heads.js';
import type { BoltThread } from '../params/tables/bolt-holes.js';
import type { FlangePart } from '../parts/flange/flange.js';
import { tubeSection } from '../parts/flange/tube-section.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** Room to spare between what turns and what is welded, mm: none is asked beyond not touching. */
const SPARE = 0;

/** What stands on the flange at a bolt and what turns it, against the nearest tube with its weld. */
export function boltsClear({ plan, flanges }: CheckContext): Finding[] {
  const words = lengthsIn(plan.units);
  return flanges.flatMap((f) =>
    f.region.bolts.flatMap(({ bolt: index }) => {
      const bolt = plan.heads[f.head]!.bolts[index]!;
      const head = BOLT_HEADS[bolt.thread as BoltThread];
      const near = nearestTube(plan, f, bolt.at);
      if (near === null || head === undefined) return [];
      const seat = Math.max(head.corners, head.washer);
      return [
        room(
          f,
          index,
          near,
          seat / 2,
          'flange.bolt-seat',
          `head, nut and washer of ${bolt.thread} (${words(seat, 1)})`,
          'fail',
          words,
        ),
        room(
          f,
          index,
          near,
          bolt.socketDiameter / 2,
          'flange.bolt-socket',
          `a socket of ${words(bolt.socketDiameter, 1)}`,
          'warn',
          words,
        ),
      ];
    }),
  );
}

interface Near {
  readonly cylinder: number;
  /** From the bolt's axis to the toe of the weld, mm. */
  readonly distance: number;
}

/** The tube whose weld comes nearest to a place on the outer face. */
function nearestTube(plan: Plan, flange: FlangePart, at: readonly [number, number]): Near | null {
  const ports = plan.ports.filter((p) => p.head === flange.head);
  return ports.reduce<Near | null>((least, port) => {
    const skin = tubeSection(plan, port, plan.tube.od / 2, plan.flange.thickness);
    const off = pointToOutline(at, skin).distance * (outlineContains(skin, at) ? -1 : 1);
    const distance = off - plan.flange.weldLeg;
    return least === null || distance < least.distance ? { cylinder: port.cylinder, distance } : least;
  }, null);
}

function room(
  flange: FlangePart,
  bolt: number,
  near: Near,
  radius: number,
  id: string,
  what: string,
  broken: 'warn' | 'fail',
  words: LengthWords,
): Finding {
  const value = near.distance - radius;
  return {
    id,
    level: value >= SPARE ? 'ok' : broken,
    place: `${flange.name}, bolt ${bolt + 1}`,
    value,
    limit: SPARE,
    unit: 'mm',
    message:
      value >= SPARE
        ? `${words(value, 2)} between ${what} and the weld of cylinder ${near.cylinder}.`
        : `The weld of cylinder ${near.cylinder} is ${words(-value, 2)} in the way of ${what}: move the bolt, or use a smaller tube or weld.`,
  };
}
