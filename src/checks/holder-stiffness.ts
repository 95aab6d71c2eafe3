import { HOLDER_LOAD, MOST_DEFLECTION } from '../parts/jigs/strut-stiffness.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** Every collector's holder against the give of its struts under a hand's load. */
export function holdersStiff({ holders = [] }: CheckContext): Finding[] {
  return holders.map(({ collector, deflection, strut, enough }) => {
    const gives = `gives ${deflection.toFixed(2)} mm under ${HOLDER_LOAD} N with struts of ${strut.toFixed(0)} mm (estimate: rigid joints, full PLA)`;
    const mend = enough === null ? 'hold the collector by other means too' : `jig.strut: ${enough} mm would do`;
    const holds = deflection <= MOST_DEFLECTION;
    return {
      id: 'jig.strut',
      level: holds ? 'ok' : 'warn',
      place: `collector ${collector}`,
      value: deflection,
      limit: MOST_DEFLECTION,
      unit: 'mm',
      message: holds ? `The holder ${gives}.` : `The holder ${gives}; ${mend}.`,
    };
  });
}
