import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readPlan } from '../../src/params/read-plan.js';
import { routeHeader } from '../../src/pipeline.js';
import { inInches } from '../support/in-inches.js';

const FOLDER = new URL('../../templates/', import.meta.url);
const readFile = (name: string): Uint8Array => readFileSync(new URL(name, FOLDER));

/** Every number of the routes of a plan. */
function routesOf(text: string): readonly number[] {
  const read = readPlan(text, 'plan.yaml', readFile);
  if (!read.ok) throw new Error(read.text);
  const routing = routeHeader(read.plan);
  if (!routing.ok) throw new Error('no route');
  const { primaries, secondaries } = routing.header;
  return [...primaries, ...secondaries].flatMap((t) => [t.length, ...t.polygon.points.flat()]);
}

describe('a header written in inches', () => {
  // 4-2-1 has pairs that are alike: the search tells them apart by the last digit of a number, were it to differ
  test.each(['inline-four', 'inline-four-421', 'v-twin'])('%s: has the routes of the same in mm to 1e-9 mm', (name) => {
    const text = readFileSync(new URL(`${name}.yaml`, FOLDER), 'utf8');
    const [mm, inch] = [routesOf(text), routesOf(inInches(text))];
    expect(inch).toHaveLength(mm.length);
    for (const [i, v] of mm.entries()) expect(Math.abs(v - inch[i]!)).toBeLessThan(1e-9);
  });
});
