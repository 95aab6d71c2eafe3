import { createHash } from 'node:crypto';
import { WORLD } from '../../src/geometry/frame.js';
import { circleOutline, rectangleOutline } from '../../src/geometry/outline/make.js';
import type { Outline } from '../../src/geometry/outline/outline.js';
import type { Vec2 } from '../../src/geometry/vec2.js';
import type { FlangeBolt, FlangePlan, Plan, Port } from '../../src/params/plan.js';
import { jigWith } from './jig-fixture.js';

export interface PortPlace {
  readonly at: Vec2;
  readonly outline: Outline;
}

/** A bolt for a clearance hole of so many mm; M8 with 9 mm is ISO 273 medium. */
export const boltAt = (at: Vec2, holeDiameter = 9, thread = 'M8', threadDiameter = 8): FlangeBolt => ({
  at,
  thread,
  threadDiameter,
  holeDiameter,
  socketDiameter: 1.25 * 13 + 3,
});

export const FLANGE: FlangePlan = {
  thickness: 10,
  material: 'mild steel',
  portEdge: 9,
  boltEdge: 8,
  web: 5,
  fillet: 10,
  opening: { match: 'port', enlarge: 0 },
  style: { kind: 'one_piece' },
  dowels: [],
  notches: [],
  growth: null,
  weldLeg: 2,
  torchGap: 20,
  leastCutHole: 1.5,
  cutClass: 2,
  kerf: { width: 1.6, compensate: false },
};

/** A plan with one head: only what the flange looks at is meant, the rest is filled with plausible figures of our own. */
export function planWith(
  ports: readonly PortPlace[],
  bolts: readonly FlangeBolt[],
  flange: Partial<FlangePlan> = {},
  name = 'bench mule',
): Plan {
  return {
    name,
    hash: createHash('sha256').update(name).digest('hex'),
    units: 'mm',
    engine: {
      cylinders: ports.length,
      layout: 'inline',
      firingOrder: ports.map((_, i) => i + 1),
      bore: 86,
      stroke: 86,
      bankAngle: 0,
      compressionRatio: null,
      cam: null,
      rpm: null,
    },
    heads: [{ name: 'head', frame: WORLD, bolts, body: null }],
    ports: ports.map(
      (p, i): Port => ({
        cylinder: i + 1,
        head: 0,
        at: p.at,
        frame: { ...WORLD, origin: [p.at[0], p.at[1], 0] },
        outline: p.outline,
        shape: 'as drawn',
        lengthInHead: null,
      }),
    ),
    flange: { ...FLANGE, ...flange },
    tube: {
      od: 42.4,
      wall: 2,
      material: '304',
      bends: [],
      sticks: [{ length: 2000 }],
      minStraight: 5,
      minStraightPort: 10,
      minStraightInlet: 10,
      steps: [],
    },
    collectors: [],
    runners: {
      length: 700,
      band: null,
      tuned: false,
      tolerance: 1,
      clearance: 5,
      given: [],
      seed: 1,
      weights: { bend: 20, turning: 12, tightness: 8, closeness: 30, scrap: 5 },
      budget: 20,
    },
    secondaries: null,
    access: [],
    notes: [],
    plates: [],
    gaskets: null,
    drawing: { units: 'mm', version: 'r2007', curves: 'polylines', paper: 'a4', engrave: false, sheet: null },
    weld: { gap: 0, shrinkage: 0 },
    stock: { kerf: 2, grip: 25, leastOffcut: 150, minimise: 'pieces', currency: null, density: null },
    patterns: { wrap: 'outside', tab: 15, paper: 0.1, units: 'mm', extra: [] },
    tuning: { rule: 'duration', rpm: null, gasTemperature: 873.15, roughness: 0.046, tailpipe: null, turbine: null },
    existing: null,
    keepOuts: [],
    jig: jigWith({ bed: [210, 210, 200], fit: 0.25, plate: 3, keyLength: 15, strut: 8 }),
  };
}

/** Inline four, oval ports of 44 x 34 mm at 92 mm, ten studs in two rows. */
export function inlineFour(flange: Partial<FlangePlan> = {}): Plan {
  const ports = [0, 1, 2, 3].map((i): PortPlace => ({ at: [i * 92, 0], outline: rectangleOutline(44, 34, 17) }));
  const upper = [-38, 46, 138, 230, 314].map((x): FlangeBolt => boltAt([x, 26]));
  const lower = [-30, 46, 138, 230, 306].map((x): FlangeBolt => boltAt([x, -29]));
  return planWith(ports, [...upper, ...lower], flange, 'inline four');
}

/** One bank of a vee eight: round ports of 41 mm at 106 mm, two studs a port on the slant. */
export function veeBank(flange: Partial<FlangePlan> = {}): Plan {
  const ports = [0, 1, 2, 3].map((i): PortPlace => ({ at: [i * 106, 0], outline: circleOutline([0, 0], 41) }));
  const bolts = ports.flatMap((p) => [
    boltAt([p.at[0] - 27, 24], 10.5, 'M10', 10),
    boltAt([p.at[0] + 27, -24], 10.5, 'M10', 10),
  ]);
  return planWith(ports, bolts, flange, 'vee eight, left bank');
}

/** A single with a round port and two studs. */
export const single = (flange: Partial<FlangePlan> = {}): Plan =>
  planWith(
    [{ at: [0, 0], outline: circleOutline([0, 0], 38) }],
    [boltAt([-34, 6]), boltAt([34, -6])],
    flange,
    'single',
  );
