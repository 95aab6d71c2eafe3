import { expect, test } from 'vitest';
import { planHash, shortHash } from '../../../src/params/text/plan-hash.js';
import { starterPlan } from '../../support/starter.js';
import { BASE, planFrom } from '../base-plan.js';

// SHA-256 of "abc": FIPS 180-4, NIST's examples with intermediate values.
const ABC = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

test('without files it is the SHA-256 of the text, of which papers carry 12 digits', () => {
  expect(planHash('abc', new Map())).toBe(ABC);
  expect(shortHash(ABC)).toBe('ba7816bf8f01');
  expect(planFrom(BASE).hash).toBe(planHash(BASE, new Map()));
});

test('any change of the text or of a file it names gives another; the order files are read in does not', () => {
  const [a, b] = [bytes('first'), bytes('second')];
  const hash = planHash(
    'plan',
    new Map([
      ['a.csv', a],
      ['b.csv', b],
    ]),
  );
  expect(
    planHash(
      'plan',
      new Map([
        ['b.csv', b],
        ['a.csv', a],
      ]),
    ),
  ).toBe(hash);
  const others = [
    planHash(
      'plan ',
      new Map([
        ['a.csv', a],
        ['b.csv', b],
      ]),
    ),
    planHash(
      'plan',
      new Map([
        ['a.csv', b],
        ['b.csv', b],
      ]),
    ),
    planHash('plan', new Map([['a.csv', a]])),
  ];
  expect(new Set([hash, ...others]).size).toBe(4);
});

test('the drawing a starter is traced from counts', () => {
  expect(starterPlan('traced-gasket').hash).toMatch(/^[0-9a-f]{64}$/);
  expect(starterPlan('traced-gasket').hash).not.toBe(starterPlan('inline-four').hash);
});
