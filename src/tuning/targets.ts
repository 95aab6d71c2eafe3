import type { PlanFault } from '../params/faults/plan-problem.js';
import { lengthWords } from '../params/faults/wording.js';
import { TUNED_LENGTHS } from '../params/limits.js';
import type { Plan } from '../params/plan.js';
import { lengthRule } from './formulas/length-rules.js';
import { tuningInputs } from './formulas/tuning-inputs.js';

/** A plan whose target length is fixed, or what is wrong with what it is reckoned from. */
export type Targets =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly faults: readonly PlanFault[] };

/**
 * Fixes the target length where the plan leaves it to a published rule: the rule counts from the valve, the mean length of the ports in
 * the head is taken off. Any other plan comes back as it is. Faults name fields: inputs that are missing, a length no engine asks
 * for, steps beyond it.
 */
export function withTargets(plan: Plan): Targets {
  if (!plan.runners.tuned) return { ok: true, plan };
  const found = tuningInputs(plan);
  if (!found.ok) {
    const faults = found.missing.map(({ field, why }) => ({ path: [field], message: `missing; ${why}` }));
    return { ok: false, faults };
  }
  const length = lengthRule(plan.tuning.rule).fromValve(found.inputs) - found.inputs.portLength;
  const faults = lengthFaults(plan, length, found.inputs.rpm);
  if (faults.length > 0) return { ok: false, faults };
  return { ok: true, plan: { ...plan, runners: { ...plan.runners, length } } };
}

function lengthFaults({ tuning, tube, units }: Plan, length: number, rpm: number): PlanFault[] {
  const words = (mm: number) => lengthWords(mm, units);
  const { from, to } = TUNED_LENGTHS;
  if (!(length >= from && length <= to)) {
    const message = `the rule ${tuning.rule} asks for ${words(length)} from the head face at ${rpm} rev/min; expected ${words(from)} to ${words(to)}: check engine.rpm, engine.cam and length_in_head`;
    return [{ path: ['runners', 'length'], message }];
  }
  return tube.steps.flatMap(({ at, within }, i): PlanFault[] => {
    if (at + within < length) return [];
    const message = `a step at ${words(at)}, give or take ${words(within)}, reaches past the tuned length, ${words(length)}`;
    return [{ path: ['tube', 'steps', i, 'at'], message }];
  });
}

/** What gave the target length, in words: 'plan', or the rule with its engine speed. */
export const targetFrom = ({ runners, tuning, engine }: Plan): string =>
  runners.tuned
    ? `rule ${tuning.rule} at ${tuning.rpm ?? engine.rpm!.power} rev/min`
    : runners.band === null
      ? 'plan'
      : 'band of the plan';
