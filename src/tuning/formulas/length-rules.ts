import type { LengthRuleName } from '../../params/plan.js';
import { DURATION_LENGTH } from './duration.js';
import { QUARTER_WAVE, QUARTER_WAVE_SECOND } from './quarter-wave.js';
import type { LengthRule } from './rule.js';
import { WAVE_RETURN, WAVE_RETURN_SECOND } from './wave-return.js';

/** Every rule for the length of a primary. */
export const LENGTH_RULE_LIST: readonly LengthRule[] = [
  DURATION_LENGTH,
  WAVE_RETURN,
  WAVE_RETURN_SECOND,
  QUARTER_WAVE,
  QUARTER_WAVE_SECOND,
];

/** The rule of a name. */
export const lengthRule = (name: LengthRuleName): LengthRule => LENGTH_RULE_LIST.find((r) => r.name === name)!;
