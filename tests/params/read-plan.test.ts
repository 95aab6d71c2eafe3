import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { radians } from '../../src/geometry/angle.js';
import { markedJig } from '../support/jig-fixture.js';
import { BASE, planFrom, swap } from './base-plan.js';

describe('a sound plan', () => {
  test('comes in mm, rad and unit directions, with its defaults', () => {
    const plan = planFrom(BASE);
    expect(plan.heads[0]).toMatchObject({ name: 'head', body: null });
    expect(plan.heads[0]!.bolts[0]).toEqual({
      at: [-40, 0],
      thread: 'M8',
      holeDiameter: 9,
      threadDiameter: 8,
      socketDiameter: 1.25 * 13 + 3,
    });
    expect(plan.flange).toEqual({
      thickness: 10,
      material: 'mild steel',
      portEdge: 8,
      boltEdge: 8,
      web: 5,
      fillet: 6,
      opening: { match: 'port', enlarge: 0 },
      style: { kind: 'one_piece' },
      dowels: [],
      notches: [],
      growth: null,
      weldLeg: 1.6,
      torchGap: 20,
      leastCutHole: 1.5,
      cutClass: 2,
      kerf: { width: 0, compensate: false },
    });
    expect(plan.tube.bends).toEqual([{ clr: 63.5, maxAngle: Math.PI, leg: 0, shortLeg: 0 }]);
    expect(plan.tube.sticks).toEqual([{ length: 2000 }]);
    expect(plan.stock).toEqual({
      kerf: 2,
      grip: 25,
      leastOffcut: 150,
      minimise: 'pieces',
      currency: null,
      density: null,
    });
    expect(plan.collectors[0]).toMatchObject({
      name: 'collector',
      cylinders: [1, 2],
      inletGap: 4,
      mergeHalfAngle: radians(8),
      order: { kind: 'free' },
      outlet: { od: 50, wall: 1.6, coneLength: 100, tail: 40 },
    });
    expect(plan.runners).toEqual({
      length: 600,
      band: null,
      tuned: false,
      tolerance: 1,
      clearance: 6,
      given: [],
      seed: 1,
      weights: { bend: 20, turning: 12, tightness: 8, closeness: 30, scrap: 5 },
      budget: 20,
    });
    expect(plan.tube.steps).toEqual([]);
    expect([plan.secondaries, plan.keepOuts, plan.collectors[0]!.freedom]).toEqual([null, [], null]);
    expect(plan.collectors[0]!.from).toEqual([]);
    expect(plan.jig).toEqual(markedJig({ strut: null }));
    expect(plan.engine).toMatchObject({ bankAngle: 0, compressionRatio: null, cam: null, rpm: null });
  });

  test('reads the same from JSON', () => {
    expect(planFrom(JSON.stringify(parse(BASE)))).toEqual({ ...planFrom(BASE), hash: expect.any(String) });
    expect(planFrom(JSON.stringify(parse(BASE), null, 2))).toEqual({ ...planFrom(BASE), hash: expect.any(String) });
  });

  test('reads the same with Windows line ends and a byte order mark', () => {
    expect(planFrom(`\uFEFF${BASE.replaceAll('\n', '\r\n')}`)).toEqual({ ...planFrom(BASE), hash: expect.any(String) });
  });

  test('may repeat a part by an anchor', () => {
    const text = swap(BASE, 'shape: { kind: round, diameter: 38 }', 'shape: &s { kind: round, diameter: 38 }');
    const plan = planFrom(swap(text, '{ kind: oval, width: 44, height: 36 }', '*s'));
    expect(plan.ports.map((p) => p.shape)).toEqual(['round 38 mm', 'round 38 mm']);
  });
});
