import { describe, expect, test } from 'vitest';
import type { ExistingManifold } from '../../../src/params/plan/existing.js';
import { exhaustSystemOf } from '../../../src/parts/gas-path/exhaust-system-of.js';
import { existingPath, metalDensity } from '../../../src/parts/gas-path/existing-path.js';
import { circleArea } from '../../../src/parts/gas-path/gas-way.js';
import { openHousing } from '../../../src/parts/gas-path/open-housing.js';
import { auditOf } from '../../../src/parts/gas-path/path-audit.js';
import { HOT_PIPE, heatLoss } from '../../../src/parts/gas-path/wall-heat.js';
import { single } from '../../support/plan-fixture.js';
import { starterPlan } from '../../support/starter.js';

const round = (diameter: number) => circleArea(diameter);

/** One runner of 40 to 50 mm over 200 mm with one turn, a pot of 100 cm3, an outlet of 45 mm. */
const POT: ExistingManifold = {
  name: 'pot',
  material: 'mild steel',
  wall: 3,
  roughness: 0.26,
  heatShare: 1,
  pipes: [
    {
      from: { cylinder: 1 },
      into: 0,
      length: 200,
      sections: [
        { at: 0, area: round(40) },
        { at: 200, area: round(50) },
      ],
      bends: [{ at: 20, angle: Math.PI / 2, insideRadius: 20 }],
    },
    {
      from: { collector: 0 },
      into: null,
      length: 100,
      sections: [
        { at: 0, area: round(50) },
        { at: 100, area: round(45) },
      ],
      bends: [],
    },
  ],
  collectors: [{ name: 'pot', volume: 100_000 }],
};

const plan = single();

describe('the audit of a simple manifold against closed forms', () => {
  const audit = auditOf(existingPath(plan, POT));
  const [cylinder] = audit.cylinders;

  test('volumes are those of cones and the pot', () => {
    const cone = (h: number, a: number, b: number) => ((Math.PI * h) / 12) * (a * a + a * b + b * b);
    expect(cylinder!.runnerVolume).toBeCloseTo(cone(200, 40, 50), 6);
    expect(audit.volume).toBeCloseTo(cone(200, 40, 50) + 100_000 + cone(100, 50, 45), 6);
    expect(cylinder!.volume).toBeCloseTo(audit.volume, 6);
  });

  test('surface and mass are those of the walls', () => {
    const skin = (h: number, a: number, b: number, w: number) =>
      Math.PI * Math.hypot(h, (a - b) / 2) * ((a + b) / 2 + 2 * w);
    const ball = Math.PI * ((6 * 100_000) / Math.PI) ** (2 / 3);
    expect(audit.surface).toBeCloseTo(skin(200, 40, 50, 3) + skin(100, 50, 45, 3) + ball, 3);
    const metal = 3 * (skin(200, 40, 50, 1.5) + skin(100, 50, 45, 1.5) + ball);
    expect(audit.mass).toBeCloseTo(metal * 7850e-9, 9);
  });

  test('the contraction at the outlet is found, the growth before it is none', () => {
    expect(cylinder!.worst).toMatchObject({ way: 'pipe from pot', what: 'end' });
    expect(cylinder!.worst!.change).toBeCloseTo((45 / 50) ** 2 - 1, 9);
    expect(cylinder!.stations.some((s) => s.change > 0.5)).toBe(true);
  });

  test('the turn has its inside radius over the bore where it begins', () => {
    expect(cylinder!.tightest).toBeCloseTo(20 / 41, 9);
    expect(cylinder!.bends).toBe(1);
  });

  test('a double wall lets its share of the heat through', () => {
    const covered = auditOf(existingPath(plan, { ...POT, heatShare: 0.4 }));
    expect(covered.heat / audit.heat).toBeCloseTo(0.4, 2);
  });
});

describe('heat of a skin', () => {
  test('a black body in no air gives sigma T^4 at most', () => {
    const square = 1e6;
    expect(heatLoss(square, 1)).toBeLessThan(
      5.67e-8 * HOT_PIPE.skin ** 4 + HOT_PIPE.film * (HOT_PIPE.skin - HOT_PIPE.air),
    );
    expect(heatLoss(square, 0.5)).toBeCloseTo(heatLoss(square, 1) / 2, 9);
  });
  test('cast iron, stainless and steel have their own weight', () => {
    expect(['cast iron', '304 stainless', 'mild steel'].map(metalDensity)).toEqual([7200, 7900, 7850]);
  });
});

describe('the manifold of the starter', () => {
  const four = starterPlan('inline-four');
  const system = existingPath(four, four.existing!);

  test('begins with the ports of the plan and ends with its tailpipe', () => {
    for (const way of system.ways.filter((w) => 'cylinder' in w.from)) {
      expect(way.stations[0]!.what).toBe('valve');
      expect(way.stations[1]!.at).toBe(80);
    }
    const last = system.ways.at(-1)!;
    expect(last.length).toBeCloseTo(90 + 1200, 9);
    expect(last.stations.at(-1)!.area).toBeCloseTo(round(60), 6);
  });

  test('stations still rise where they are blended for the calculation', () => {
    for (const pipe of exhaustSystemOf(system).pipes) {
      pipe.stations.forEach((s, i) => {
        if (i > 0) expect(s.at).toBeGreaterThanOrEqual(pipe.stations[i - 1]!.at);
      });
      expect(pipe.stations.at(-1)!.at).toBeLessThanOrEqual(pipe.length + 1e-12);
    }
  });
});

describe('an open housing', () => {
  const turbine = { area: 900, backPressure: 120_000 };
  const two = {
    ...POT,
    pipes: [...POT.pipes, { ...POT.pipes[1]!, from: { collector: 1 } }],
    collectors: [...POT.collectors, { name: 'other', volume: 50_000 }],
  };

  test('joins what ended apart', () => {
    const system = existingPath({ ...plan, tuning: { ...plan.tuning, turbine } }, two);
    const open = openHousing(system);
    expect(system.ways.filter((w) => w.to === 'end')).toHaveLength(2);
    expect(open.ways.filter((w) => w.to === 'end')).toHaveLength(1);
    expect(open.joints.length).toBe(system.joints.length + 1);
    expect(open.ways.at(-1)!.stations[0]!.area).toBeCloseTo(2 * round(45), 6);
    expect(exhaustSystemOf(open).end).toMatchObject({ areas: [expect.closeTo(900e-6, 12)] });
  });
});
