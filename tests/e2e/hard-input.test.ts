import { describe, expect, it } from 'vitest';
import { FILES } from '../support/hard-input/files.js';
import { FOLDERS } from '../support/hard-input/folders.js';
import { PLAN_TEXTS } from '../support/hard-input/plan-text.js';
import { runHardCase } from '../support/hard-input/run-case.js';

// a third of the table that `npm run hard-input` goes through
const SOME = [...PLAN_TEXTS, ...FILES, ...FOLDERS].filter((_, i) => i % 3 === 0);

describe('hard input', () => {
  it.each(SOME)('$what: exit $exit in words, nothing written, little time and memory', async (hard) => {
    const { faults, said } = await runHardCase(hard);
    expect(faults, said).toEqual([]);
  });
});
