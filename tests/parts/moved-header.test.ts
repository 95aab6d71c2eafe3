import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { outlineArea, perimeter } from '../../src/geometry/outline/measure.js';
import { type ReadPlan, readPlan } from '../../src/params/read-plan.js';
import { stockBillOf } from '../../src/parts/stock/bill-of.js';
import { cutsOf } from '../../src/parts/tube/tube-cuts.js';
import { type RoutedHeader, routeHeader } from '../../src/pipeline.js';
import { MIRRORED_X, type Motion, movedPlan, numberAfter, QUARTER_Z } from '../support/moved-plan.js';

const STARTER = readFileSync(new URL('../../templates/inline-four.yaml', import.meta.url), 'utf8');

const headerOf = (text: string): RoutedHeader => {
  const read: ReadPlan = readPlan(text, 'plan.yaml');
  if (!read.ok) throw new Error(read.text);
  const routing = routeHeader(read.plan);
  if (!routing.ok) throw new Error(JSON.stringify(routing.miss));
  return routing.header;
};

/** What a shop would read of a header, the cylinders by the numbers they had: nothing in it speaks of a place in the world. */
async function read(header: RoutedHeader, motion: Motion | null): Promise<object> {
  const { plan, primaries, gaps, flanges, findings } = header;
  const numbers = plan.ports.map((p) => p.cylinder);
  const before = new Map(numbers.map((n) => [motion ? numberAfter(motion, n) : n, n]));
  const cuts = primaries.map((p) => cutsOf(plan, p));
  const bill = await stockBillOf(
    plan,
    cuts.flatMap((c) => c.pieces),
  );
  const round = (x: number): number => Math.round(x * 1e5) / 1e5;
  const sorted = (list: readonly number[]): number[] => list.map(round).sort((a, b) => a - b);
  return {
    tubes: primaries
      .map((p, i) => ({
        cylinder: before.get(p.cylinder)!,
        length: round(p.length),
        clr: p.polygon.clr,
        pieces: cuts[i]!.pieces.map((c) =>
          [c.length, c.angle, c.clr, c.legBefore, c.legAfter, c.cutLength].map((x) => round(x ?? 0)),
        ),
      }))
      .sort((a, b) => a.cylinder - b.cylinder),
    // gaps are found to within 0.005 mm, from either tube of a pair
    gaps: sorted(gaps.map((g) => Math.round(g.value * 100) / 100)),
    flanges: flanges.map(({ region }) => [
      round(outlineArea(region.outer)),
      round(perimeter(region.outer)),
      region.openings.length,
      region.bolts.length,
    ]),
    findings: findings.map((f) => `${f.id} ${f.level} ${f.value.toFixed(2)} ${f.limit.toFixed(2)}`).sort(),
    bill: [bill.value, round(bill.tubeMass!), round(bill.weldLength), round(bill.purgeVolume)],
  };
}

describe('a header moved, mirrored or numbered otherwise comes to the same in the shop', () => {
  let plain: object;
  beforeAll(async () => {
    plain = await read(headerOf(STARTER), null);
  });

  it.each<[string, Motion]>([
    ['mirrored', { axes: MIRRORED_X, shift: [300, 0, 0] }],
    ['turned by a quarter, numbered from the rear', { axes: QUARTER_Z, shift: [10, -20, 30], numbers: [4, 3, 2, 1] }],
  ])('%s: tubes, pieces, gaps, flange, findings and stock', async (_, motion) => {
    expect(await read(headerOf(movedPlan(STARTER, motion)), motion)).toEqual(plain);
  });
});
