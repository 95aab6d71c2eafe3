import { expect, test } from 'vitest';
import { ledgesTable } from '../../../src/export/csv/ledges.js';
import { circleOutline } from '../../../src/geometry/outline/make.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { planWith } from '../../support/plan-fixture.js';

test('ledges stand in a table by direction: a round port of 42 mm over a bore of 38.4 mm', () => {
  const plan = planWith([{ at: [5, 7], outline: circleOutline([0, 0], 42) }], []);
  const lines = new TextDecoder()
    .decode(ledgesTable(flangesOf(plan)).bytes)
    .trim()
    .split('\r\n');
  expect(lines[0]).toBe('flange,cylinder,step,angle_deg,clock,ledge_mm');
  expect(lines).toHaveLength(1 + 2 * 36);
  const cells = lines.slice(1).map((line) => line.split(','));
  for (const [, , step, , , ledge] of cells) expect(Number(ledge)).toBeCloseTo(step === 'port to plate' ? 0 : 1.8, 9);
  expect(cells[9]!.slice(3, 5)).toEqual(['90', "12 o'clock"]);
});
