import type { Plan } from '../../params/plan.js';
import { type Comparison, EXISTING } from '../../parts/comparison/comparison.js';
import { LAW_CAUTION } from '../cautions.js';
import { auditBlocks } from './audit-blocks.js';
import { explorationBlocks } from './exploration-blocks.js';
import { list, type Page, paragraph, section } from './page.js';
import { sweepBlocks } from './sweep-blocks.js';
import { verdictWords } from './verdict-words.js';

/** What a comparison is for, and who decides. */
export const COMPARISON_CAUTION =
  'One-dimensional estimates for choosing first prototypes: they compare exhausts on the same assumptions and do not foretell power. The dynamometer and the engine builder decide.';

/** Header or manifold: which to choose, where they balance and what it would take, on one page. */
export function comparisonPage(plan: Plan, comparison: Comparison): Page {
  const name = plan.existing?.name ?? EXISTING;
  return {
    id: 'tuning-comparison',
    title: plan.existing === null ? 'The header along the gas' : `Header or ${name}`,
    blocks: [
      paragraph(`${COMPARISON_CAUTION} ${LAW_CAUTION}`),
      ...section('In short', list(verdictWords(comparison, name, plan.units))),
      ...auditBlocks(comparison, name, plan.units),
      ...(comparison.exploration === null ? [] : explorationBlocks(comparison.exploration, plan.units)),
      ...sweepBlocks(comparison, (system) => systemWords(system, name)),
    ],
  };
}

/** What people call a system. */
export const systemWords = (system: string, manifold: string): string =>
  system === 'as routed'
    ? 'header'
    : system === 'equal lengths'
      ? 'header, equal lengths'
      : system === 'open housing'
        ? 'header, open housing'
        : manifold;
