import type { PlanFault } from '../faults/plan-problem.js';
import type { Draft } from '../resolve/draft.js';

/** One head or several, one collector or several: exactly one of the two forms. */
export function sectionRules({ given }: Draft): PlanFault[] {
  return [
    ...exactlyOne(given, 'head', 'heads', 'the head face'),
    ...exactlyOne(given, 'collector', 'collectors', 'the collector'),
  ];
}

function exactlyOne(given: ReadonlySet<string>, one: string, several: string, what: string): PlanFault[] {
  if (given.has(one) && given.has(several)) {
    return [{ path: [several], atKey: true, message: `give ${what} as ${one} or as a list ${several}, not both` }];
  }
  if (given.has(one) || given.has(several)) return [];
  return [
    { path: [one], message: `missing; describe ${what} under ${one}, or more than one as a list under ${several}` },
  ];
}
