import { beforeAll, describe, expect, it } from 'vitest';
import { minimalConflict } from '../../src/routing/conflict.js';
import type { Clock, Miss } from '../../src/routing/miss.js';
import { solve } from '../../src/routing/solve.js';
import { easedPlan } from '../support/eased-plan.js';
import { type TightBay, tightBay } from '../support/tight-bay.js';

/** Allowance for a machine busy with other tests. */
const SLOWER = 6;

/** One kind of conflict, planted: what must be named, and what must be offered. */
interface Planted {
  readonly bay: TightBay;
  readonly conflict: readonly string[];
  readonly offered: readonly string[];
}

/** A closed room round one port and its collector, 190 mm wide, 330 mm high, 200 mm deep. */
const ROOM = {
  left: [
    [-70, 0, 0],
    [1, 0, 0],
  ],
  right: [
    [120, 0, 0],
    [-1, 0, 0],
  ],
  top: [
    [0, 70, 0],
    [0, -1, 0],
  ],
  bottom: [
    [0, -470, 0],
    [0, 1, 0],
  ],
  front: [
    [0, 0, 200],
    [0, 0, -1],
  ],
};

const PLANTED: Readonly<Record<string, Planted>> = {
  'a target shorter than the way': { bay: { length: 250 }, conflict: ['runners.length'], offered: ['runners.length'] },
  'a target too long for a closed room': {
    bay: { length: 1500, planes: ROOM },
    conflict: ['runners.length'],
    offered: ['runners.length'],
  },
  'a gap wider than the ports stand apart': {
    bay: { ports: 2, pitch: 80, clearance: 55, length: 560, collector: [40, -300, 160] },
    conflict: ['runners.clearance between cylinders 1 and 2'],
    offered: ['runners.clearance'],
  },
  'a wall between head and collector': {
    bay: {
      boxes: {
        wall: [
          [-900, -150, -100],
          [900, -130, 900],
        ],
      },
    },
    conflict: ['keep_out "wall"'],
    offered: ['without keep_out "wall"'],
  },
  'straights longer than there is room for': {
    bay: { tube: ['min_straight: 300'] },
    conflict: ['tube.min_straight'],
    offered: ['tube.min_straight'],
  },
  'bent stock of too little angle': {
    bay: { maxAngle: 20 },
    conflict: ['max_angle of tube.bends clr 60 mm'],
    offered: ['max_angle of tube.bends clr 60 mm'],
  },
  'an order that crosses the tubes in a flat bay': {
    bay: {
      ports: 2,
      order: '[2, 1]',
      clocking: 270,
      length: 420,
      collector: [50, -330, 85],
      planes: {
        front: [
          [0, 0, 118],
          [0, 0, -1],
        ],
      },
      boxes: {
        above: [
          [-400, 30, 0],
          [400, 300, 400],
        ],
        behind: [
          [-400, -330, -50],
          [400, -50, 55],
        ],
      },
    },
    conflict: ['collector.order'],
    offered: ['collector.order: free'],
  },
  'a collector against the head': {
    bay: { collector: [20, -300, 26] },
    conflict: ['head'],
    offered: [],
  },
  'a step where the bend must be': {
    bay: {
      length: 380,
      collector: [0, -320, 83],
      planes: {
        front: [
          [0, 0, 112],
          [0, 0, -1],
        ],
      },
      tube: ['steps: [{ at: 75, within: 4, od: 42.4, wall: 1.5, bends: [{ clr: 60, max_angle: 180, leg: 50 }] }]'],
    },
    conflict: ['within of tube.steps 1'],
    offered: ['within of tube.steps 1'],
  },
  'two spaces that close the way together': {
    bay: {
      collector: [20, -320, 140],
      length: 640,
      boxes: {
        'near side': [
          [-900, -170, -100],
          [30, -150, 900],
        ],
        'far side': [
          [20, -170, -100],
          [900, -150, 900],
        ],
      },
    },
    conflict: ['keep_out "near side"', 'keep_out "far side"'],
    offered: ['without keep_out "near side"', 'without keep_out "far side"'],
  },
};

function missOf(bay: TightBay, goOn?: Clock): Miss {
  const solution = solve(tightBay(bay), goOn ? { goOn } : {});
  if (solution.ok) throw new Error('there is a way after all');
  return solution.miss;
}

const misses = new Map<string, Miss>();

/** The miss of what is planted under a name, looked for once. */
function known(name: string): Miss {
  const miss = misses.get(name) ?? missOf(PLANTED[name]!.bay);
  misses.set(name, miss);
  return miss;
}

const WALL = PLANTED['a wall between head and collector']!;

describe.each(Object.entries(PLANTED))('%s', (name, { bay, conflict, offered }) => {
  let miss: Miss;
  beforeAll(() => {
    miss = known(name);
  });

  it('is among the limits that conflict', () => {
    expect(miss.conflict).toEqual(expect.arrayContaining([...conflict]));
    expect(miss.timedOut).toBe(false);
  });

  it('shows numbers of the nearest miss', () => {
    expect(miss.broken.length).toBeGreaterThan(0);
    for (const b of miss.broken) expect(b.value).toBeLessThan(b.limit);
    expect(miss.nearest.map((t) => t.name)).toEqual(
      (bay.ports ?? 1) === 2 ? ['cylinder 1', 'cylinder 2'] : ['cylinder 1'],
    );
  });

  it('is eased by changes that work when the plan is changed so', () => {
    const words = miss.relaxations.map((r) => r.words);
    expect(words).toEqual(expect.arrayContaining([...offered]));
    for (const r of miss.relaxations) expect(solve(easedPlan(tightBay(bay), r)).ok, JSON.stringify(r)).toBe(true);
  });
});

describe('what is eased', () => {
  it('is eased no further than it takes: a gap to what the ports leave', () => {
    const { relaxations } = known('a gap wider than the ports stand apart');
    // ports 80 mm apart, tubes of 40 mm
    expect(relaxations).toContainEqual({ words: 'runners.clearance', from: 55, to: 40, unit: 'mm', worked: true });
  });

  it('is told the same every time', () => {
    expect(missOf(WALL.bay)).toEqual(known('a wall between head and collector'));
  });
});

describe('time', () => {
  it('is asked for often enough: no more than 0.15 s of work between two looks at the clock', () => {
    let last = performance.now();
    let longest = 0;
    missOf(WALL.bay, () => {
      const now = performance.now();
      longest = Math.max(longest, now - last);
      last = now;
      return true;
    });
    expect(longest).toBeLessThan(150 * SLOWER);
  });

  it('ends search and explanation, with the nearest miss so far and without a claim', () => {
    let looks = 0;
    const miss = missOf(WALL.bay, (share = 1) => looks++ < 250 * share);
    expect(miss.timedOut).toBe(true);
    expect(miss.conflict).toEqual([]);
    expect(miss.relaxations).toEqual([]);
    expect(miss.nearest.length).toBeGreaterThan(0);
  });

  it('that is up at once leaves nothing to tell', () => {
    expect(missOf(WALL.bay, () => false)).toMatchObject({ timedOut: true, broken: [], nearest: [], relaxations: [] });
  });
});

describe('a smallest conflict', () => {
  const all = Array.from({ length: 17 }, (_, i) => i);

  it.each([[[3]], [[0, 16]], [[5, 6, 11]], [[]]])('%j is found among 17', (planted) => {
    const conflicts = (kept: readonly number[]): boolean => planted.every((p) => kept.includes(p));
    expect(minimalConflict(all, conflicts)).toEqual(planted);
  });

  it('of two that overlap is one of them whole', () => {
    const both = [
      [2, 9],
      [9, 12],
    ];
    const conflicts = (kept: readonly number[]): boolean => both.some((b) => b.every((p) => kept.includes(p)));
    expect(both).toContainEqual(minimalConflict(all, conflicts));
  });

  it('is taken back when it turns out to be none', () => {
    let asked = 0;
    expect(minimalConflict(all, () => asked++ === 1)).toBeNull();
  });
});
