import type { PlanFault } from '../plan-problem.js';
import type { Draft } from '../resolve/draft.js';
import { collectorRules } from './collectors.js';
import { feedingRules } from './feeding.js';
import { flangeRules } from './flange.js';
import { patternRules } from './patterns.js';
import { plateRules } from './plates.js';
import { portRules } from './ports.js';
import { routeRules } from './routes.js';
import { sectionRules } from './sections.js';
import { spaceRules } from './space.js';
import { stepRules } from './steps.js';

/** Every rule that looks at more than one section of a plan. */
export const RULES: readonly ((draft: Draft) => readonly PlanFault[])[] = [
  sectionRules,
  portRules,
  flangeRules,
  stepRules,
  collectorRules,
  feedingRules,
  routeRules,
  spaceRules,
  plateRules,
  patternRules,
];
