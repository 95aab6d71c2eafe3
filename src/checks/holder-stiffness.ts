import { lengthsIn } from '../params/wording.js';
import { HOLDER_LOAD, MOST_DEFLECTION } from '../parts/jigs/strut-stiffness.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** Every collector's holder against the give of its struts under a hand's load. */
export function holdersStiff({ plan, holders = [] }: CheckContext): Finding[] {
  const words = lengthsIn(plan.units);
  return holders.map(({ collector, deflection, strut, struts, given, stiffest, tubes, alone }) => {
    const bars = `${struts} ${struts === 1 ? 'strut' : 'struts'} of ${words(strut, 0)}`;
    const on =
      tubes > 0 ? `${bars} and ${tubes} of ${tubes + 1} dummy tubes (${words(alone, 1)} before any tube is in)` : bars;
    const gives = `gives ${words(deflection, 2)} under ${HOLDER_LOAD} N on ${on}; an estimate for PLA with rigid joints and the walls of jig.print`;
    const more =
      stiffest === null ? '' : ` The stiffest with room there would give ${words(stiffest, 2)} and take more plastic.`;
    const mend = given
      ? 'Leave jig.strut to auto'
      : 'Steady the collector while you tack: tie it to something fixed, stand it on bolts of the block with jig.holder, or print more jig.print.walls';
    const holds = deflection <= MOST_DEFLECTION;
    return {
      id: 'jig.strut',
      level: holds ? 'ok' : 'warn',
      place: `collector ${collector}`,
      value: deflection,
      limit: MOST_DEFLECTION,
      unit: 'mm',
      message: holds ? `The holder ${gives}.` : `The holder ${gives}.${more} ${mend}.`,
    };
  });
}
