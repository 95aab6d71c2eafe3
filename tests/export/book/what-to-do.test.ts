import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { whatToDo } from '../../../src/export/book/what-to-do.js';

const CHECKS = fileURLToPath(new URL('../../../src/checks/', import.meta.url));

/** Names of checks as the source has them: 'flange.web'. */
const ids = readdirSync(CHECKS).flatMap((file) =>
  [...readFileSync(CHECKS + file, 'utf8').matchAll(/'([a-z-]+\.[a-z-]+)'/g)].map((m) => m[1]!),
);

it('says of every check what to do about it', () => {
  const nothing = whatToDo('no.such-check');
  expect(new Set(ids).size).toBeGreaterThan(40);
  for (const id of new Set(ids)) expect(whatToDo(id), id).not.toBe(nothing);
});

it('takes the most particular advice', () => {
  expect(whatToDo('flange.bolt-growth')).not.toBe(whatToDo('flange.bolt-edge'));
  expect(whatToDo('flange.bolt-edge')).not.toBe(whatToDo('flange.web'));
});
