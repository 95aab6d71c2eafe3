import type { PlanFault } from '../faults/plan-problem.js';
import type { Draft } from '../resolve/draft.js';
import { collectorFormRules } from './collector-form.js';
import { collectorRules } from './collectors.js';
import { feedingRules } from './feeding.js';
import { flangeRules } from './flange.js';
import { jigRules } from './jig.js';
import { patternRules } from './patterns.js';
import { plateRules } from './plates.js';
import { portRules } from './ports.js';
import { routeRules } from './routes.js';
import { sectionRules } from './sections.js';
import { spaceRules } from './space.js';
import { stepRules } from './steps.js';
import { stockRules } from './stock.js';
import { tuningRules } from './tuning.js';

/** Every rule that looks at more than one section of a plan. */
export const RULES: readonly ((draft: Draft) => readonly PlanFault[])[] = [
  sectionRules,
  portRules,
  flangeRules,
  stepRules,
  collectorRules,
  collectorFormRules,
  feedingRules,
  routeRules,
  spaceRules,
  plateRules,
  stockRules,
  jigRules,
  patternRules,
  tuningRules,
];
