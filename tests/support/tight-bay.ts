import type { Plan } from '../../src/params/plan.js';
import { readPlan } from '../../src/params/read-plan.js';

/** What is told of a bay in which something is planted; the rest is one or two plain ports over a collector. mm and degrees. */
export interface TightBay {
  /** Number of ports, their pitch and the collector below them. */
  readonly ports?: 1 | 2;
  readonly pitch?: number;
  readonly collector?: readonly [number, number, number];
  readonly order?: string;
  readonly clocking?: number;
  readonly length?: number;
  readonly clearance?: number;
  readonly maxAngle?: number;
  /** Lines within `tube`. */
  readonly tube?: readonly string[];
  readonly budget?: number;
  /** Boxes as lowest and highest corner, planes as a point and the normal to the free side. */
  readonly boxes?: Readonly<Record<string, readonly (readonly number[])[]>>;
  readonly planes?: Readonly<Record<string, readonly (readonly number[])[]>>;
}

/** The plan of such a bay as text. */
export function tightBayText({
  ports = 1,
  pitch = 100,
  collector = [60, -260, 140],
  order = 'free',
  clocking = 0,
  length = 520,
  clearance = 6,
  maxAngle = 180,
  tube = [],
  budget = 20,
  boxes = {},
  planes = {},
}: TightBay): string {
  const numbers = Array.from({ length: ports }, (_, i) => i + 1);
  const list = (x: readonly number[]): string => `[${x.join(', ')}]`;
  const spaces = [
    ...Object.entries(boxes).map(([name, [from, to]]) => [name, `kind: box, from: ${list(from!)}, to: ${list(to!)}`]),
    ...Object.entries(planes).map(([name, [p, n]]) => [
      name,
      `kind: half_space, point: ${list(p!)}, normal: ${list(n!)}`,
    ]),
  ];
  return [
    'evenrun: 1',
    'name: tight bay',
    'units: mm',
    `engine: { cylinders: ${ports}, layout: ${ports > 1 ? 'inline' : 'single'}, firing_order: ${list(numbers)}, bore: 80, stroke: 80 }`,
    'head:',
    '  ports:',
    ...numbers.map(
      (n) => `    - { cylinder: ${n}, at: [${(n - 1) * pitch}, 0], shape: { kind: round, diameter: 34 } }`,
    ),
    '  bolts:',
    ...numbers.flatMap((n) => [
      `    - { at: [${(n - 1) * pitch - 20}, 27], thread: M8 }`,
      `    - { at: [${(n - 1) * pitch + 20}, -27], thread: M8 }`,
    ]),
    'flange: { thickness: 8, material: mild steel }',
    'tube:',
    '  od: 40',
    '  wall: 1.5',
    '  material: mild steel',
    `  bends: [{ clr: 60, max_angle: ${maxAngle}, leg: 50 }]`,
    ...tube.map((line) => `  ${line}`),
    'collector:',
    `  at: ${list(collector)}`,
    '  direction: [0, -1, 0]',
    `  clocking: ${clocking}`,
    `  order: ${order}`,
    '  outlet: { od: 54, wall: 1.5, cone_length: 80, tail: 30 }',
    `runners: { length: ${length}, clearance: ${clearance}, budget: ${budget} }`,
    ...(spaces.length > 0 ? ['keep_out:'] : []),
    ...spaces.map(([name, rest]) => `  - { name: ${name}, ${rest}, clearance: 5 }`),
    'access: { bolts: false }',
    'jig: { bed: [210, 210, 210] }',
    '',
  ].join('\n');
}

/** The plan of such a bay. */
export function tightBay(bay: TightBay): Plan {
  const read = readPlan(tightBayText(bay), 'tight-bay.yaml');
  if (!read.ok) throw new Error(read.text);
  return read.plan;
}
