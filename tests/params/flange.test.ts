import { describe, expect, test } from 'vitest';
import type { Plan } from '../../src/params/plan.js';
import { readPlan } from '../../src/params/read-plan.js';

/** A plan of four ports and eight bolts with a flange of its own. */
const text = (flange: string, units = 'mm'): string => `evenrun: 1
name: four
units: ${units}
engine: { cylinders: 4, layout: inline, firing_order: [1, 3, 4, 2], bore: 86 mm, stroke: 86 mm }
head:
  ports:
${[1, 2, 3, 4].map((c) => `    - { cylinder: ${c}, at: [${95 * (c - 1)} mm, 0 mm], shape: { kind: round, diameter: 36 mm } }`).join('\n')}
  bolts:
${[-40, 47.5, 142.5, 237.5].map((x) => `    - { at: [${x} mm, 20 mm], thread: M8 }\n    - { at: [${x} mm, -20 mm], thread: M8, socket: 20 mm }`).join('\n')}
flange:
  thickness: 10 mm
  material: mild steel
${flange
  .split('\n')
  .map((line) => `  ${line}`)
  .join('\n')}
tube: { od: 42.4 mm, wall: 2 mm, material: 304 stainless, bends: [{ clr: 63.5 mm }] }
collector:
  at: [160 mm, -350 mm, 150 mm]
  direction: [0, -1, 0]
  outlet: { od: 63.5 mm, wall: 1.6 mm, cone_length: 110 mm }
runners: { length: 760 mm }
`;

function planOf(flange: string, units?: string): Plan {
  const read = readPlan(text(flange, units), 'plan.yaml');
  if (!read.ok) throw new Error(read.text);
  return read.plan;
}

function faultOf(flange: string): string {
  const read = readPlan(text(flange), 'plan.yaml');
  return read.ok ? '' : read.text;
}

describe('what may be left out', () => {
  const { flange, heads } = planOf('web: 5 mm');
  test('keeps the flange of plans before: one piece, matched to the port, no slots', () => {
    expect(flange).toMatchObject({
      opening: { match: 'port', enlarge: 0 },
      style: { kind: 'one_piece' },
      dowels: [],
      notches: [],
      growth: null,
      weldLeg: 2,
      torchGap: 20,
      leastCutHole: 1.5,
      cutClass: 2,
    });
  });

  test('sockets go by the thread unless a bolt has its own', () => {
    expect(heads[0]!.bolts.slice(0, 2).map((b) => b.socketDiameter)).toEqual([1.25 * 13 + 3, 20]);
  });

  test('enlarge of old plans is the growth of the opening', () => {
    expect(planOf('enlarge: 1').flange.opening).toEqual({ match: 'port', enlarge: 1 });
    expect(planOf('opening: { match: transition }\nenlarge: 1').flange.opening).toEqual({
      match: 'transition',
      enlarge: 1,
      outer: 'tube_bore',
    });
  });
});

test.each([
  ['style: { kind: necked }', { kind: 'necked', width: 30, length: 12 }],
  ['style: { kind: slotted, width: 2 mm }', { kind: 'slotted', width: 2, tie: 6 }],
  ['style: { kind: bridged, width: 16 mm }', { kind: 'bridged', width: 16 }],
  ['style: { kind: separate }', { kind: 'separate', groups: null, gap: 1 }],
  [
    'style: { kind: separate, groups: [[1, 2], [3, 4]] }',
    {
      kind: 'separate',
      groups: [
        [1, 2],
        [3, 4],
      ],
      gap: 1,
    },
  ],
])('%s', (words, style) => {
  expect(planOf(words).flange.style).toEqual(style);
});

test('defaults are the same part in inches', () => {
  const words = 'style: { kind: slotted }\nopening: { match: tube_od }';
  expect(planOf(words, 'in').flange).toEqual(planOf(words).flange);
});

test('growth comes in kelvin, with the metal by the words of the material', () => {
  const { growth } = planOf('growth: { head_material: aluminium, head_hot: 120, flange_hot: 600 }').flange;
  expect(growth).toEqual({
    headMetal: 'aluminium',
    flangeMetal: 'carbon_steel',
    cold: 293.15,
    headHot: 393.15,
    flangeHot: 873.15,
    fixed: 'middle',
    holes: 'slot',
  });
});

test('notches and dowels, angles in degrees', () => {
  const { notches, dowels } = planOf(
    'notches: [{ kind: vee, at: [10, 30], towards: 90 }, { kind: round, at: [5, 6], radius: 7, head: head }]\ndowels: [{ at: [1, 2], diameter: 6 }]',
  ).flange;
  expect(notches).toEqual([
    { kind: 'vee', at: [10, 30], towards: Math.PI / 2, angle: Math.PI / 2, tip: 3, head: null },
    { kind: 'round', at: [5, 6], radius: 7, head: 'head' },
  ]);
  expect(dowels).toEqual([{ at: [1, 2], diameter: 6, head: null }]);
});

describe('faults, by line and field', () => {
  test.each([
    ['style: { kind: sloted }', /plan\.yaml:23:\d+ flange\.style\.kind: .*did you mean "slotted"/],
    ['style: { kind: necked, tie: 5 }', /flange\.style\.tie: unknown field/],
    ['opening: { match: tube_bore, enlarge: 1 }', /flange\.opening\.enlarge: unknown field/],
    ['opening: { match: tube_bore }\nenlarge: 1', /plan\.yaml:24:\d+ flange\.enlarge: .*matched to the tube/],
    ['opening: { match: port, enlarge: 1 }\nenlarge: 2', /flange\.opening\.enlarge: .*give it once/],
    [
      'style: { kind: slotted, width: 1 }\nkerf: { width: 1.5, compensate: true }',
      /flange\.style\.width: expected a slot wider than the kerf of 1\.5 mm, found 1 mm/,
    ],
    [
      'style: { kind: separate, groups: [[1, 2], [2, 3, 4]] }',
      /flange\.style\.groups\.1\.0: cylinder 2 is in a group already/,
    ],
    ['style: { kind: separate, groups: [[1, 2], [3]] }', /flange\.style\.groups: cylinder 4 is in no group/],
    ['style: { kind: separate, groups: [[1, 2], [3, 5]] }', /flange\.style\.groups\.1\.1: cylinder 5 has no port/],
    ['dowels: [{ at: [0, 0], diameter: 6, head: rear }]', /flange\.dowels\.0\.head: expected the name of a head/],
    [
      'growth: { head_material: aluminium, head_hot: 120, flange_hot: 600, fixed: 9 }',
      /flange\.growth\.fixed: expected a bolt from 1 to 8, found 9/,
    ],
    [
      'growth: { head_material: aluminium, head_hot: 120, flange_hot: 900 }',
      /flange\.growth\.flange_hot: expected a number from 20 to 750/,
    ],
    ['cut_class: 3', /flange\.cut_class/],
  ])('%s', (words, fault) => {
    expect(faultOf(words)).toMatch(fault);
  });

  test('a separate flange with fewer than two bolts names its cylinder', () => {
    const bolts = text('style: { kind: separate }').replace(/ {4}- \{ at: \[237\.5 mm, -20[^\n]*\n/, '');
    const read = readPlan(bolts, 'plan.yaml');
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.text).toMatch(/flange\.style: the separate flange of cylinder 4 would have one bolt/);
  });
});
