import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { checkStarters, PARTS } from '../support/starter-checks.js';

it('every part of the starters has its file', () => {
  const files = readdirSync(fileURLToPath(new URL('.', import.meta.url))).filter((f) =>
    /^templates-\d+\.test\.ts$/.test(f),
  );
  expect(files.sort()).toEqual(Array.from({ length: PARTS }, (_, i) => `templates-${i + 1}.test.ts`));
});

checkStarters(1);
