import { expect, test } from 'vitest';
import { distance, sub } from '../../../src/geometry/vec3.js';
import { collectorGeometry } from '../../../src/parts/collector/merge-geometry.js';
import { platesOf } from '../../../src/parts/plates/plate.js';
import { BASE, planFrom } from '../../params/base-plan.js';
import { PLATES } from '../../params/plate-plan.js';

const plan = planFrom(BASE + PLATES);
const parts = platesOf(plan);

test('a plate for a collector sits at the end of its outlet', () => {
  const { frame } = parts.find((p) => p.plan.name === 'outlet')!;
  const collector = plan.collectors[0]!;
  const { totalLength } = collectorGeometry(collector, plan.tube);
  expect(distance(frame!.origin, collector.frame.origin)).toBeCloseTo(totalLength, 9);
  expect(sub(frame!.z, collector.frame.z)).toEqual([0, 0, 0]);
  expect(parts.find((p) => p.plan.name === 'wheel')!.frame).toBeNull();
});

test('areas of openings and outlets', () => {
  const outlet = parts.find((p) => p.plan.name === 'outlet')!;
  expect(outlet.openArea).toBeCloseTo((Math.PI * 50.4 ** 2) / 4, 9);
  expect(outlet.outletArea).toBeCloseTo((Math.PI * 46.8 ** 2) / 4, 9);
});

test('a slip joint says how it is made', () => {
  const { flat } = parts.find((p) => p.plan.name === 'slip')!;
  expect(flat.thickness).toBe(1.6);
  expect(flat.notes).toEqual([
    'roll to a sleeve 50.40 mm inside, 53.60 mm outside; weld the seam',
    'tube of 50.00 mm slips in 40.00 mm, gap 0.20 mm per side',
  ]);
});

// EN 1993-1-2: steel 7850 kg/m3.
test('mass is that of the ring left over', () => {
  const { flat } = parts.find((p) => p.plan.name === 'ring')!;
  expect(flat.mass).toBeCloseTo((Math.PI / 4) * (0.0704 ** 2 - 0.0504 ** 2) * 0.01 * 7900, 9);
});

test('names become files of their own', () => {
  const two = planFrom(`${BASE}plates:
  - { name: Über Teil, kind: slip_joint, for: collector }
  - { name: uber teil, kind: slip_joint, for: collector }
  - { name: 排気, kind: slip_joint, for: collector }
`);
  expect(platesOf(two).map((p) => p.flat.path)).toEqual(['plates/uber-teil', 'plates/uber-teil-2', 'plates/plate-3']);
});
