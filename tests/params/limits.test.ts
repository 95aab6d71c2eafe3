import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import * as limits from '../../src/params/limits.js';
import { limitRows } from '../support/limits-table.js';

const GUIDE = readFileSync(new URL('../../src/guides/limits.md', import.meta.url), 'utf8');

test('the guide on limits has every cap as it is in the code, and no other', () => {
  const rows = GUIDE.split('\n').filter((l) => l.startsWith('| ') && !l.startsWith('| what'));
  expect(rows).toEqual(limitRows(limits));
});
