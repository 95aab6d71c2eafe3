import { describe, expect, test } from 'vitest';
import { meshVolume } from '../../../src/geometry/mesh/measure.js';
import { outlineArea } from '../../../src/geometry/outline/measure.js';
import type { FlangePlan } from '../../../src/params/plan.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { flangeProof } from '../../../src/parts/jigs/flange-proof.js';
import { proofThickness } from '../../../src/parts/jigs/proof-plate.js';
import { inlineFour } from '../../support/plan-fixture.js';

const STYLES: readonly (readonly [string, Partial<FlangePlan>, number])[] = [
  ['one piece', { style: { kind: 'one_piece' } }, 1],
  ['necked', { style: { kind: 'necked', width: 30, length: 12 } }, 1],
  ['slotted', { style: { kind: 'slotted', width: 3, tie: 6 } }, 1],
  ['bridged', { style: { kind: 'bridged', width: 14 } }, 1],
  ['separate', { style: { kind: 'separate', groups: null, gap: 1 } }, 4],
];

describe('the printed flange', () => {
  test.each(STYLES)('%s: one body a piece, with all that is open left open', (_, flange, count) => {
    const plan = inlineFour({ ...flange, dowels: [{ at: [92, -32], diameter: 6, head: null }] });
    const wide = { ...plan, jig: { ...plan.jig, bed: [500, 500, 200] as const } };
    const flanges = flangesOf(wide);
    expect(flanges).toHaveLength(count);
    for (const f of flanges) {
      const parts = flangeProof(wide, f);
      expect(parts.map((p) => p.name)).toEqual([`${f.name}-proof`]);
      // engraved numbers take a little, chords of holes too
      const volume = f.area * proofThickness(wide);
      expect(meshVolume(parts[0]!.mesh) / volume).toBeGreaterThan(0.97);
      expect(meshVolume(parts[0]!.mesh) / volume).toBeLessThan(1.002);
      expect(f.area).toBeLessThan(outlineArea(f.region.outer));
    }
  });
});
