import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { readPlan } from '../../../src/params/read-plan.js';
import { stlText, tetrahedron } from '../../support/stl-text.js';
import { BASE, problemsOf } from '../base-plan.js';
import { fullPlan } from '../full-plan.js';

describe('files that are no plan', () => {
  test.each([
    ['', '1:1: expected a plan with sections such as engine, head and tube; the file is empty'],
    ['# only a comment\n', '1:1: expected a plan with sections such as engine, head and tube; the file is empty'],
    ['just text', '1:1: expected a plan with sections such as engine, head and tube'],
    ['- 1\n- 2\n', '1:1: expected a plan with sections such as engine, head and tube'],
    ['name: a\nname: b\n', '2:1: "name" is given twice in the same section; keep one'],
    ['---\nname: a\n---\nname: b\n', '3:1: a second document starts here; a plan file holds one plan'],
    ['name: !secret a\n', '1:7: a plan has no tags (!name); leave it out'],
    ['name: !!binary aGk=\n', '1:7: a plan has no tags (!name); leave it out'],
    ['a: &x [*x]\n', '1:8: *x stands inside itself'],
    ['base: &b { od: 1 }\ntube: { <<: *b }\n', '2:9: a plan cannot have a field named "<<"'],
    ['tube: { __proto__: { od: 1 } }\n', '1:9: a plan cannot have a field named "__proto__"'],
    ['{"constructor": {"prototype": 1}}', '1:2: a plan cannot have a field named "constructor"'],
    ['%YAML 1.1\n---\nname: a\n', '1:1: a plan is YAML 1.2; leave the %YAML line out'],
  ])('%j', (text, message) => {
    const read = readPlan(text, 'plan.yaml');
    expect(read.ok ? '' : read.text.split('\n')[0]).toBe(`plan.yaml:${message}`);
  });

  test.each([
    ['an open bracket', 'name: a\nhead: [1, 2\nunits: mm\n', 3],
    ['an open quote', 'name: "a\n', 2],
    ['a bad indent', 'engine:\n    bore: 1\n  stroke: 2\n', 3],
    ['a tab', 'engine:\n\tbore: 1\n', 2],
    ['an unknown alias', 'name: a\nhead: *nobody\n', 2],
  ])('%s is told at its line', (_, text, line) => {
    expect(problemsOf(text)[0]!.line).toBe(line);
  });

  test('aliases that would multiply without end are refused', () => {
    const bomb = ['a: &a [x, x, x, x, x, x, x, x]'];
    for (const [k, j] of ['ba', 'cb', 'dc', 'ed', 'fe', 'gf', 'hg', 'ih'].map((s) => [s[0], s[1]])) {
      bomb.push(`${k}: &${k} [${Array(8).fill(`*${j}`).join(', ')}]`);
    }
    expect(problemsOf(bomb.join('\n')).length).toBeGreaterThan(0);
  });

  test.each([
    ['dashes', '- '.repeat(50_000)],
    ['brackets', '['.repeat(400_000)],
    ['braces', '{a: '.repeat(100_000)],
    ['keys', '? '.repeat(50_000)],
    ['indents', Array.from({ length: 1000 }, (_, i) => `${' '.repeat(i)}a:`).join('\n')],
  ])('%s nested without end are refused', (_, text) => {
    expect(problemsOf(text)[0]!.message).toBe('the file is nested deeper than a plan ever is');
  });

  test('a file over a megabyte is refused, a long one below is read in time', () => {
    expect(problemsOf('#'.repeat(1_000_001))[0]!.message).toMatch(/at most 1000000 bytes, found 1000001$/);
    const start = performance.now();
    const many = problemsOf(Array.from({ length: 60_000 }, (_, i) => `k${i}: ${i}`).join('\n'));
    expect(many.length).toBeLessThanOrEqual(200);
    expect(performance.now() - start).toBeLessThan(10_000);
  });
});

test('what is printed holds no control characters, whatever the file does', () => {
  const read = readPlan('"a\\e[2J\\nb": 1\nunits: "\\u009b\\u202e"\n', 'plan.yaml');
  expect(read.ok ? '' : read.text).toContain('2:8 units: expected mm or in, found "\\u009b\\u202e"');
  expect(read.ok ? '' : read.text).toContain('1:1 a\\u001b[2J\\u000ab: unknown field');
});

test('aliases are counted, and one too many is told at its line', () => {
  const text = `x: &x 1\ny:\n${'  - *x\n'.repeat(60)}`;
  expect(problemsOf(text)).toEqual([{ line: 53, column: 5, path: '', message: 'expected at most 50 aliases (*name)' }]);
});

describe('junk never throws and never passes', () => {
  const noThrow = (text: string) => {
    const read = readPlan(text, 'plan.yaml');
    expect(read.ok).toBe(false);
    if (!read.ok)
      for (const p of read.problems) expect(p.line >= 1 && p.column >= 1 && p.message.length > 0).toBe(true);
  };

  test('any text', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 200 }), noThrow), { numRuns: 500 });
    const yamlish = fc.constantFrom(
      ...'{}[]:,-?&*!|>#%@"\'\n \t~<aé0.'.split(''),
      '- ',
      ': ',
      '\n  ',
      '<<: ',
      '--- ',
      '\u2028',
    );
    fc.assert(fc.property(fc.string({ unit: yamlish, maxLength: 60 }), noThrow), { numRuns: 2000 });
  });

  test('any JSON', () => {
    fc.assert(fc.property(fc.json({ maxDepth: 6 }), noThrow), { numRuns: 500 });
  });

  test.each([
    ['base', BASE],
    ['full', fullPlan('mm')],
  ])('the %s plan with any value in any place reads or says why', (_, text) => {
    const base = parse(text) as Record<string, unknown>;
    const places = placesOf(base);
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.jsonValue({ maxDepth: 2 }), (place, value) => {
        const copy = structuredClone(base);
        let at: Record<string, unknown> = copy;
        for (const step of place.slice(0, -1)) at = at[step] as Record<string, unknown>;
        at[place.at(-1)!] = value;
        const read = readPlan(JSON.stringify(copy, null, 1), 'plan.json', () => stlText(tetrahedron(9)));
        if (!read.ok) expect(read.text).toMatch(/^plan\.json:\d+:\d+/);
      }),
      { numRuns: 2000 },
    );
  });
});

/** The path of every section, field and entry. */
function placesOf(value: unknown): string[][] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => [[key], ...placesOf(inner).map((p) => [key, ...p])]);
}
