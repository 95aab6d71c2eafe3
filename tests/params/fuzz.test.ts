import { describe, expect, test } from 'vitest';
import { type FuzzKind, fuzzCase } from '../support/fuzz/cases.js';

const SEED = 7;

describe(`files with mistakes in them, seed ${SEED}`, () => {
  test.each<[FuzzKind, number]>([
    ['plan', 700],
    ['as-built', 300],
    ['dxf', 150],
    ['csv', 150],
    ['stl', 300],
    ['sound plan routed', 6],
  ])('%s: each is taken with finite numbers or refused with line and reason', (kind, cases) => {
    const ends = Array.from({ length: cases }, (_, n) => fuzzCase(kind, SEED * 1_000_003 + n));
    expect(ends.filter((e) => e.fault !== null).map((e) => e.fault)).toEqual([]);
    // both ways are walked: mistakes that are never taken, or always, prove little
    expect(ends.some((e) => e.end === 'taken')).toBe(true);
    if (kind !== 'sound plan routed') expect(ends.some((e) => e.end === 'refused')).toBe(true);
  });
});
