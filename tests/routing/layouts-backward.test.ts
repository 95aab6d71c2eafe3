import { describe, expect, it } from 'vitest';
import { bendTable } from '../../src/export/csv/bend-table.js';
import type { ControlPolygon } from '../../src/geometry/path/control-polygon.js';
import { solve } from '../../src/routing/solve.js';
import { backwardLayout, kindOf, tubesOf } from '../support/backward-layouts.js';
import { tubesFromBendTable } from '../support/bend-table-length.js';
import { routeFaults } from '../support/route-faults.js';

/** A slice of what `npm run layouts` runs: four of each kind. */
const SEEDS = [3, 21, 23, 24, 8, 11, 12, 13, 15, 16, 18, 19].map((seed) => ({
  seed,
  kind: kindOf(seed),
  tubes: tubesOf(seed),
}));

describe('layouts built backwards from routes that hold', () => {
  it.each(SEEDS)('seed $seed, $kind, $tubes tubes: solved, and right by the bend table alone', ({ seed }) => {
    const { plan, witness } = backwardLayout(seed);
    expect(routeFaults(plan, witness, { ends: 1e-6, gaps: 0 })).toEqual([]);
    const solution = solve(plan);
    if (!solution.ok) throw new Error(JSON.stringify(solution.miss));
    const table = new TextDecoder().decode(bendTable(solution.sets[0]!.primaries).bytes);
    expect(routeFaults(plan, tubesFromBendTable(table))).toEqual([]);
  });

  it('are the same for the same seed', () => {
    expect(backwardLayout(8).yaml).toBe(backwardLayout(8).yaml);
    expect([...backwardLayout(8).witness]).toEqual([...backwardLayout(8).witness]);
  });
});

describe('the judge', () => {
  const { plan, witness } = backwardLayout(12);

  it.each([
    [0, 0, 0.001, /starts off the port by/],
    [-1, 1, 0.001, /ends off the inlet by/],
    [1, 0, 0.01, /starts off the port axis by/],
    [2, 2, 0.01, /misses the length by/],
  ])('sees point %i moved along axis %i by %f mm: %s', (point, axis, by, words) => {
    const [cylinder, tube] = [...witness][0]!;
    const points = tube.points.map((p): [number, number, number] => [...p]);
    points.at(point)![axis]! += by;
    const moved = new Map([...witness, [cylinder, { ...tube, points }]]);
    expect(routeFaults(plan, moved, { ends: 1e-6, gaps: 0 }).join()).toMatch(words);
  });

  it('sees a missing primary, two at one inlet, and tubes that meet', () => {
    expect(routeFaults(plan, new Map([...witness].slice(1)))).toHaveLength(1);
    const [[, first], [other]] = [...witness] as [[number, ControlPolygon], [number, ControlPolygon]];
    const faults = routeFaults(plan, new Map([...witness, [other, first]])).join();
    expect(faults).toMatch(/which is taken/);
    expect(faults).toMatch(/they stand -/);
  });

  it('sees a keep-out that is entered', () => {
    const through = {
      ...plan.keepOuts[0]!,
      kind: 'half-space' as const,
      point: [0, 0, 60],
      normal: [0, 0, -1],
    } as const;
    expect(routeFaults({ ...plan, keepOuts: [through] }, witness).join()).toMatch(/keep-out part 1/);
  });
});
