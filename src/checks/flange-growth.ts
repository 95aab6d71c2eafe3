import { lengthsIn } from '../params/faults/wording.js';
import { FREEZING } from '../params/tables/expansion.js';
import type { FlangePart } from '../parts/flange/flange.js';
import { holeReach } from '../parts/flange/region.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** What a hole may be short of the growth and still hold, mm: the slip that is not worth a slot. */
const SLACK = 0.01;

/** Every bolt hole against what the flange grows beyond the head: the room along the line from the fixed bolt. */
export function boltGrowth({ plan, flanges }: CheckContext): Finding[] {
  const growth = plan.flange.growth;
  if (growth === null) return [];
  const words = lengthsIn(plan.units);
  const hot = `${(growth.flangeHot - FREEZING).toFixed(0)} C, head ${(growth.headHot - FREEZING).toFixed(0)} C`;
  return flanges.flatMap((f) =>
    f.growth.map(({ bolt, distance, slip }, i): Finding => {
      const { threadDiameter } = plan.heads[f.head]!.bolts[bolt]!;
      const room = holeReach(f.region.bolts[i]!) - threadDiameter / 2;
      return {
        id: 'flange.bolt-growth',
        level: Math.abs(slip) <= room + SLACK ? 'ok' : 'fail',
        place: place(f, bolt),
        value: Math.abs(slip),
        limit: room,
        unit: 'mm',
        message: `${words(distance, 1)} from the fixed bolt the flange at ${hot} moves ${words(Math.abs(slip), 2)} ${slip < 0 ? 'towards' : 'away from'} it; the hole leaves ${words(room, 2)} either way.`,
      };
    }),
  );
}

const place = (flange: FlangePart, bolt: number): string => `${flange.name}, bolt ${bolt + 1}`;
