import { degrees } from '../geometry/angle.js';
import { type Stand, standOf } from '../geometry/mesh/stand.js';
import { areaWords } from '../params/faults/wording.js';
import type { PrintPlan } from '../params/plan.js';
import type { LengthUnit } from '../params/units.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** How every printed part stands on the bed: what leans out too far to print without support, and what it stands on. */
export function jigsPrint({ plan, jigs }: CheckContext): Finding[] {
  const { print } = plan.jig;
  return jigs.flatMap((part) => {
    const stand = standOf(part.mesh, print.overhang);
    return [overhang(part.name, stand, print, plan.units), foot(part.name, stand, print, plan.units)];
  });
}

function overhang(
  place: string,
  { overhang: area }: Stand,
  { overhang: lean, mostOverhang }: PrintPlan,
  units: LengthUnit,
): Finding {
  const much = area > mostOverhang;
  const over = `more than ${degrees(lean).toFixed(0)} degrees from upright`;
  const message = much
    ? `Leans out ${over} on more than ${areaWords(mostOverhang, units, 0)}: print it with support.`
    : `Leans out ${over} on ${areaWords(area, units, 0)}.`;
  return {
    id: 'jig.overhang',
    level: much ? 'warn' : 'ok',
    place,
    value: area,
    limit: mostOverhang,
    unit: 'mm2',
    message,
  };
}

function foot(place: string, { foot: area, steady }: Stand, { leastFoot }: PrintPlan, units: LengthUnit): Finding {
  const small = area < leastFoot;
  const tips = !(steady > 0);
  const message = tips
    ? 'Its middle of mass does not stand over its foot, so it tips: print it with support.'
    : small
      ? `Stands on less than ${areaWords(leastFoot, units, 0)}: print it with a brim.`
      : `Stands on ${areaWords(area, units, 0)}.`;
  const level = small || tips ? 'warn' : 'ok';
  return { id: 'jig.first-layer', level, place, value: area, limit: leastFoot, unit: 'mm2', message };
}
