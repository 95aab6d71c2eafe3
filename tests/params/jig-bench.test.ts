import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readPlan } from '../../src/params/read-plan.js';
import { TEMPLATE_FOLDER } from '../support/command.js';

const single = readFileSync(`${TEMPLATE_FOLDER}single.yaml`, 'utf8');
const withJig = (jig: string): string => single.replace(/^jig:\n.*$/m, jig);
const read = (bench: string) => readPlan(withJig(`jig: { bench: ${bench} }`), 'plan.yaml');
const benchOf = (bench: string) => {
  const plan = read(bench);
  if (!plan.ok) throw new Error(plan.text);
  return plan.plan.jig.bench;
};
const refusal = (bench: string): string => {
  const plan = read(bench);
  if (plan.ok) throw new Error('read');
  return plan.text;
};

describe('jig.bench', () => {
  it('asks for everything when it is empty, for nothing when it is left out', () => {
    expect(benchOf('{}')).toEqual({
      saddles: true,
      sleeves: true,
      clockingRings: true,
      base: { pitch: 25, hole: 5.3, thickness: 8 },
      torchRoom: 25,
    });
    const without = readPlan(single, 'plan.yaml');
    expect(without.ok && without.plan.jig.bench).toBeNull();
  });

  it('takes lengths in either unit', () => {
    expect(benchOf('{ sleeves: false, torch_room: 1 in, base: { pitch: 1 in, hole: 0.25 in } }')).toMatchObject({
      sleeves: false,
      torchRoom: 25.4,
      base: { pitch: 25.4, hole: 6.35, thickness: 8 },
    });
  });

  it.each([
    ['{ base: { pitch: 10 } }', /jig\.bench\.base\.pitch: expected a length from 15 mm to 100 mm, found 10 mm/],
    ['{ base: { hole: 20 } }', /jig\.bench\.base\.hole: expected a length from 2 mm to 12 mm/],
    ['{ base: { pitch: 16, hole: 9 } }', /jig\.bench\.base\.hole: holes of 9 mm at a pitch of 16 mm leave too little/],
    ['{ base: { thickness: 1 } }', /jig\.bench\.base\.thickness: expected a length from 3 mm to 50 mm/],
    ['{ torch_room: 300 }', /jig\.bench\.torch_room: expected a length from 0 mm to 200 mm/],
    ['{ saddles: maybe }', /jig\.bench\.saddles/],
    ['{ saddle: true }', /saddle/],
  ])('refuses %s by line and field', (bench, words) => {
    expect(refusal(bench)).toMatch(/plan\.yaml:\d+:\d+/);
    expect(refusal(bench)).toMatch(words);
  });
});
