import { describe, expect, test } from 'vitest';
import { boltsClear } from '../../src/checks/flange-bolts.js';
import { torchReaches, weldFitsEdge } from '../../src/checks/flange-weld.js';
import { frameFacing } from '../../src/geometry/frame.js';
import { circleOutline } from '../../src/geometry/outline/make.js';
import type { FlangePlan, Plan } from '../../src/params/plan.js';
import { BOLT_HEADS } from '../../src/params/tables/bolt-heads.js';
import { flangesOf } from '../../src/parts/flange/flange.js';
import { boltAt, planWith } from '../support/plan-fixture.js';

/** Ports of 38 mm for a tube of 42.4 mm, a weld of 2 mm. */
const planOf = (ports: readonly number[], bolts: readonly number[], flange: Partial<FlangePlan> = {}): Plan =>
  planWith(
    ports.map((x) => ({ at: [x, 0], outline: circleOutline([0, 0], 38) })),
    bolts.map((x) => boltAt([x, 0])),
    flange,
  );

const bolts = (plan: Plan) => boltsClear({ plan, flanges: flangesOf(plan) } as never);

// ISO 4032: M6 10 and 11.05, M8 13 and 14.38, M10 16 and 17.77, M12 18 and 20.03 across flats and corners.
test.each([
  ['M6', 10, 11.05],
  ['M8', 13, 14.38],
  ['M10', 16, 17.77],
  ['M12', 18, 20.03],
] as const)('%s is %d mm across flats and %d mm across corners', (thread, flats, corners) => {
  expect(BOLT_HEADS[thread]).toMatchObject({ flats, corners });
});

describe('a bolt beside a tube', () => {
  test('has what is left between its washer or socket and the toe of the weld', () => {
    const [seat, socket] = bolts(planOf([0], [-50, 50]));
    // 50 - 21.2 - 2, less half of a 16 mm washer (ISO 7089, from memory) and of a 19.25 mm socket
    expect(seat!.value).toBeCloseTo(26.8 - 8, 9);
    expect(socket!.value).toBeCloseTo(26.8 - 9.625, 9);
  });

  test('too near for its socket is warned of, too near for its washer fails', () => {
    const near = bolts(planOf([0], [-32, 50]));
    expect(near.map((f) => f.level)).toEqual(['ok', 'warn', 'ok', 'ok']);
    expect(near[1]!.message).toMatch(/0\.8\d mm in the way of a socket of 19\.3 mm/);
    expect(bolts(planOf([0], [-30, 50]))[0]!.level).toBe('fail');
  });

  test('within the tube is further in the way than at its skin', () => {
    const [inside] = bolts(planOf([0], [10, 50]));
    expect(inside!.value).toBeCloseTo(-(21.2 - 10) - 2 - 8, 9);
  });

  test('of a tilted port is measured where the tube leaves the outer face', () => {
    const plan = planOf([0], [-50, 50]);
    const tilt = 0.3;
    const frame = frameFacing([0, 0, 0], [Math.sin(tilt), 0, Math.cos(tilt)], [0, 1, 0]);
    const tilted = { ...plan, ports: [{ ...plan.ports[0]!, frame }] };
    const values = bolts(tilted).map((f) => f.value);
    const [shift, half] = [10 * Math.tan(tilt), 21.2 / Math.cos(tilt)];
    expect(values[0]).toBeCloseTo(50 + shift - half - 2 - 8, 3);
    expect(values[2]).toBeCloseTo(50 - shift - half - 2 - 8, 3);
  });
});

describe('the weld', () => {
  const weld = (plan: Plan) => weldFitsEdge({ plan, flanges: flangesOf(plan) } as never)[0]!;

  test('has the edge of the port less what the tube is wider', () => {
    // 19 + 9 - 21.2
    expect(weld(planOf([0], []))).toMatchObject({ level: 'ok', value: expect.closeTo(6.8, 6), limit: 2 });
  });

  test('with too little plate is warned of; a tube over the edge fails', () => {
    expect(weld(planOf([0], [], { portEdge: 3 }))).toMatchObject({ level: 'warn', value: expect.closeTo(0.8, 6) });
    expect(weld(planOf([0], [], { portEdge: 2 }))).toMatchObject({ level: 'fail', value: expect.closeTo(-0.2, 6) });
  });
});

describe('the torch', () => {
  const torch = (plan: Plan) => torchReaches({ plan, flanges: flangesOf(plan) } as never);

  test('wants a gap between neighbouring tubes, told once for each pair', () => {
    const found = torch(planOf([0, 90, 150], []));
    expect(found.map((f) => [f.place, f.level])).toEqual([
      ['head, cylinders 1 and 2', 'ok'],
      ['head, cylinders 2 and 3', 'warn'],
    ]);
    expect(found.map((f) => f.value)).toEqual([90 - 42.4, 60 - 42.4].map((v) => expect.closeTo(v, 6)));
  });

  test('has no neighbour beside a single', () => {
    expect(torch(planOf([0], []))).toEqual([]);
  });
});
