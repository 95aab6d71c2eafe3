import type { PlanFault } from '../faults/plan-problem.js';
import { lengthWords } from '../faults/wording.js';
import type { Draft } from '../resolve/draft.js';

/** Steps of the primaries: one after another, off the flange and before the collector. */
export function stepRules({ sections }: Draft): PlanFault[] {
  const { tube, runners, flange, units = 'mm' } = sections;
  if (tube === undefined) return [];
  const words = (mm: number) => lengthWords(mm, units);
  const wanted = runners?.length === 'tuned' ? undefined : runners?.length;
  const shortest = typeof wanted === 'object' ? wanted.from : wanted;
  return tube.steps.flatMap(({ at, within }, i): PlanFault[] => {
    const fault = (message: string): PlanFault[] => [{ path: ['tube', 'steps', i, 'at'], message }];
    const before = tube.steps[i - 1];
    if (before !== undefined && at <= before.at) {
      return fault(`expected steps in order from the head: over ${words(before.at)}, found ${words(at)}`);
    }
    if (before !== undefined && at - within < before.at + before.within) {
      return fault(`this step and the one before may fall together: set them apart, or make within smaller`);
    }
    if (flange !== undefined && at - within <= flange.thickness) {
      return fault(`${around(at, within, words)} reaches into the flange (${words(flange.thickness)} thick)`);
    }
    if (shortest === undefined || at + within < shortest) return [];
    return fault(`${around(at, within, words)} reaches past the primary (runners.length ${words(shortest)})`);
  });
}

const around = (at: number, within: number, words: (mm: number) => string): string =>
  within === 0 ? `a step at ${words(at)}` : `a step at ${words(at)}, give or take ${words(within)},`;
