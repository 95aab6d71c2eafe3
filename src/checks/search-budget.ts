import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** Whether the time for the route search ran out before its work was done: then the same plan need not give the same routes again. */
export const searchBudget = ({ plan, cutShort = false }: CheckContext): Finding[] =>
  cutShort
    ? [
        {
          id: 'route.budget',
          level: 'warn',
          place: 'route search',
          value: plan.runners.budget,
          limit: plan.runners.budget,
          unit: 's',
          message: `The search was stopped after ${plan.runners.budget} s of work (runners.budget): these routes hold, but a faster machine may find others. Give it more for the same routes everywhere.`,
        },
      ]
    : [];
