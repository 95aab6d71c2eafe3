import { type LengthWords, lengthsIn } from '../params/faults/wording.js';
import type { HolderStiffness } from '../parts/jigs/holder-stiffness.js';
import { HOLDER_LOAD, MOST_DEFLECTION } from '../parts/jigs/strut-stiffness.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/**
 * What a stick from the floor or the block, clamped against the collector at its inlets, leaves of the give. A way is as good as its
 * opposite: told so that its largest part counts up.
 */
function propWords({ once, twice, softest }: HolderStiffness['propped'], words: LengthWords): string {
  const most = softest.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  const way = `[${softest.map((v) => (Math.sign(most) * v + 0).toFixed(1).replace(/^-0\.0$/, '0.0')).join(', ')}]`;
  const stick = `clamp a stick from the floor or the block to it near its inlets, so that it cannot move along ${way} or back`;
  if (once <= MOST_DEFLECTION) return `${stick}, which leaves ${words(once, 2)}`;
  return `${stick}, which leaves ${words(once, 2)}, and a second one square to it, which leaves ${words(twice, 2)}`;
}

/** Every collector's holder against the give of its struts under a hand's load. */
export function holdersStiff({ plan, holders = [] }: CheckContext): Finding[] {
  const words = lengthsIn(plan.units);
  return holders.map(({ collector, deflection, strut, struts, given, stiffest, tubes, alone, propped }) => {
    const bars = `${struts} ${struts === 1 ? 'strut' : 'struts'} of ${words(strut, 0)}`;
    const on =
      tubes > 0 ? `${bars} and ${tubes} of ${tubes + 1} dummy tubes (${words(alone, 1)} before any tube is in)` : bars;
    const gives = `gives ${words(deflection, 2)} under ${HOLDER_LOAD} N on ${on}; an estimate for PLA with rigid joints and the walls of jig.print`;
    const more =
      stiffest === null ? '' : ` The stiffest with room there would give ${words(stiffest, 2)} and take more plastic.`;
    const mend = given
      ? 'Leave jig.strut to auto'
      : `Steady the collector while you tack: ${propWords(propped, words)}; or stand it on bolts of the block with jig.holder, or print more jig.print.walls`;
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
