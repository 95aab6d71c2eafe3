import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { flangesApart } from '../../../src/checks/flange-style.js';
import { outlineContains } from '../../../src/geometry/outline/contains.js';
import { outlineToOutline } from '../../../src/geometry/outline/distance.js';
import { circleOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { outlineArea, outlineBounds, perimeter, signedArea } from '../../../src/geometry/outline/measure.js';
import { offsetOutline } from '../../../src/geometry/outline/offset.js';
import type { Outline } from '../../../src/geometry/outline/outline.js';
import { sharpestTurn } from '../../../src/geometry/outline/turn.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import type { FlangeStyle, GrowthPlan } from '../../../src/params/plan/flange.js';
import type { Plan } from '../../../src/params/plan.js';
import { LEAST_SIDE } from '../../../src/parts/flange/edge.js';
import { type FlangePart, flangesOf } from '../../../src/parts/flange/flange.js';
import { boltMargins, openingMargins, slotMargins } from '../../../src/parts/flange/margins.js';
import { holeOutline } from '../../../src/parts/flange/region.js';
import { clipperOffsetArea, clipperUnionArea } from '../../support/clipper.js';
import { randomHead } from '../../support/flange-arbitrary.js';
import { boltAt, inlineFour, planWith, veeBank } from '../../support/plan-fixture.js';

const GROWTH: GrowthPlan = {
  headMetal: 'aluminium',
  flangeMetal: 'austenitic',
  cold: 293.15,
  headHot: 393.15,
  flangeHot: 773.15,
  fixed: 'middle',
  holes: 'slot',
};

const STYLES: readonly FlangeStyle[] = [
  { kind: 'one_piece' },
  { kind: 'necked', width: 30, length: 12 },
  { kind: 'slotted', width: 3, tie: 6 },
  { kind: 'bridged', width: 14 },
  { kind: 'separate', groups: null, gap: 1 },
];

const inner = (part: FlangePart): Outline[] => [
  ...part.region.openings.map((o) => o.outline),
  ...part.region.slots,
  ...part.region.bolts.map(holeOutline),
];

/** Everything a cutter and the plan ask of one flange. */
function expectSound(part: FlangePart, plan: Plan): void {
  const { outer, slots, openings } = part.region;
  for (const o of [outer, ...slots]) {
    validateOutline(o, { leastSide: LEAST_SIDE });
    expect(sharpestTurn(o)).toBeLessThan(1e-6);
  }
  validateOutline(part.cut.outer, { leastSide: LEAST_SIDE });
  for (const s of part.cut.slots) validateOutline(s, { leastSide: LEAST_SIDE });
  for (const m of openingMargins(part)) expect(m.distance, m.place).toBeGreaterThan(plan.flange.portEdge - 1e-6);
  for (const m of boltMargins(part)) expect(m.distance, m.place).toBeGreaterThan(plan.flange.boltEdge - 1e-6);
  const tie = plan.flange.style.kind === 'slotted' ? plan.flange.style.tie - 1e-4 : 6.9;
  for (const m of slotMargins(part)) expect(m.distance, m.place).toBeGreaterThan(tie);
  // slots cross nothing and lie in the metal
  for (const s of slots) {
    for (const o of [...openings.map((x) => x.outline), ...slots.filter((x) => x !== s)]) {
      expect(outlineToOutline(s, o).distance).toBeGreaterThan(1);
    }
    for (const b of part.region.bolts) expect(outlineToOutline(s, holeOutline(b)).distance).toBeGreaterThan(1);
  }
  expect(part.area).toBeGreaterThan(0);
}

describe.each(STYLES.map((style) => [style.kind, style] as const))('style %s', (_, style) => {
  test('random heads of 1 to 8 ports come out sound (seed 23)', () => {
    fc.assert(
      fc.property(randomHead, fc.boolean(), (head, hot) => {
        const plan = { ...head, flange: { ...head.flange, style, growth: hot ? GROWTH : null } };
        const parts = flangesOf(plan);
        for (const part of parts) expectSound(part, plan);
        expect(parts.flatMap((p) => p.cylinders).sort()).toEqual(plan.ports.map((p) => p.cylinder).sort());
        expect(parts.flatMap((p) => p.region.bolts)).toHaveLength(plan.heads[0]!.bolts.length);
        expectApart(parts, plan);
      }),
      { seed: 23, numRuns: 25 },
    );
  });
});

/** Separate flanges lie apart, or the check says by how much they do not. */
function expectApart(parts: readonly FlangePart[], plan: Plan): void {
  const found = flangesApart({ plan, flanges: parts } as Parameters<typeof flangesApart>[0]);
  parts.forEach((a, i) => {
    for (const b of parts.slice(i + 1)) {
      const apart =
        outlineToOutline(a.region.outer, b.region.outer).distance >= 1 - 1e-4 &&
        !outlineContains(a.region.outer, b.region.openings[0]!.outline.vertices.map((v) => [v.x, v.y] as const)[0]!);
      const told = found.find((f) => f.place === `${a.name} and ${b.name}`);
      expect(told?.level === 'fail').toBe(!apart);
    }
  });
}

const tall = (style: FlangeStyle, fillet = 8): Plan =>
  planWith(
    [0, 95, 190].map((x) => ({ at: [x, 0] as const, outline: rectangleOutline(42, 34, 17) })),
    [boltAt([-40, 0]), boltAt([230, 0]), ...[47.5, 142.5].flatMap((x) => [boltAt([x, 26]), boltAt([x, -26])])],
    { style, portEdge: 9, boltEdge: 9, web: 6, fillet },
  );

describe('necks', () => {
  test('leave the width asked for and go where the most room is', () => {
    const plan = veeBank({ style: { kind: 'necked', width: 30, length: 12 } });
    const part = flangesOf(plan)[0]!;
    expect(part.relief.map((r) => r.length)).toEqual([12, 12, 12].map((l) => expect.closeTo(l, 6)));
    const whole = flangesOf(veeBank())[0]!;
    expect(part.area).toBeLessThan(whole.area - 3 * 2 * 12 * 8);
  });

  test('shrink where bolts leave less, and say so', () => {
    const part = flangesOf(tall({ kind: 'necked', width: 30, length: 12 }))[0]!;
    // from the port's edge 21 + 9 to the bolt's 47.5 - 4.5 - 9
    expect(part.relief.map((r) => r.length)).toEqual([4, 4].map((l) => expect.closeTo(l, 6)));
    expect(part.notes.filter((n) => n.includes('neck'))).toHaveLength(2);
  });
});

test('slots keep their ties and webs exactly and stand square to the row', () => {
  const part = flangesOf(tall({ kind: 'slotted', width: 3, tie: 6 }))[0]!;
  expect(part.region.slots).toHaveLength(2);
  for (const s of part.region.slots) {
    const { from, to } = outlineBounds(s);
    expect(to[0] - from[0]).toBeCloseTo(3, 9);
    expect(to[1] - from[1]).toBeGreaterThan(35);
    expect(outlineToOutline(s, part.region.outer).distance).toBeCloseTo(6, 1);
  }
});

test('bridges run along the bolts and leave a window between them', () => {
  const [bridged, whole] = [{ kind: 'bridged', width: 14 } as const, { kind: 'one_piece' } as const].map(
    (style) => flangesOf(tall(style))[0]!,
  ) as [FlangePart, FlangePart];
  expect(bridged.region.slots).toHaveLength(2);
  expect(bridged.mass).toBeLessThan(0.95 * whole.mass);
  for (const s of bridged.region.slots) expect(signedArea(s)).toBeGreaterThan(500);
});

describe('separate flanges', () => {
  test('share the bolts between neighbours out, across from each other', () => {
    const parts = flangesOf(tall({ kind: 'separate', groups: null, gap: 1 }));
    expect(parts.map((p) => [p.name, p.region.bolts.map((b) => b.bolt + 1)])).toEqual([
      ['flange-1', [1, expect.any(Number)]],
      ['flange-2', [expect.any(Number), expect.any(Number)]],
      ['flange-3', [2, expect.any(Number)]],
    ]);
    const [a, b] = parts[1]!.region.bolts;
    expect(Math.sign(a!.at[1])).toBe(-Math.sign(b!.at[1]));
  });

  test('by groups', () => {
    const parts = flangesOf(tall({ kind: 'separate', groups: [[1, 2], [3]], gap: 1 }));
    expect(parts.map((p) => p.name)).toEqual(['flange-1-2', 'flange-3']);
    expect(parts[0]!.title).toContain('cylinders 1 and 2');
    expect(parts[0]!.cylinders).toEqual([1, 2]);
  });
});

describe('notches and dowels', () => {
  const round = (at: readonly [number, number], radius: number) => ({ kind: 'round', at, radius, head: null }) as const;
  const bare = flangesOf(inlineFour())[0]!;

  test('a round notch clears its disc', () => {
    const part = flangesOf(inlineFour({ notches: [round([92, 36], 12)] }))[0]!;
    expect(part.notches).toEqual([{ at: [92, 36], outcome: 'cut' }]);
    const disc = circleOutline([92, 36], 23.99);
    expect(outlineToOutline(part.region.outer, disc).distance).toBeLessThan(0.01);
    expect(part.area).toBeLessThan(bare.area);
    validateOutline(part.region.outer, { leastSide: LEAST_SIDE });
    expect(sharpestTurn(part.region.outer)).toBeLessThan(1e-6);
  });

  test('a vee opens outwards with a round tip', () => {
    const vee = { kind: 'vee', at: [92, 20], towards: Math.PI / 2, angle: 1, tip: 3, head: null } as const;
    const part = flangesOf(inlineFour({ notches: [vee] }))[0]!;
    expect(part.notches[0]!.outcome).toBe('cut');
    expect(sharpestTurn(part.region.outer)).toBeLessThan(1e-6);
  });

  test.each([
    ['clear of the flange', round([92, 80], 5), 'clear'],
    ['within it', round([46, 0], 5), 'does not reach the outer edge'],
    ['right through it', round([138, 0], 45), 'would cut the flange in two'],
  ])('%s', (_, notch, outcome) => {
    const part = flangesOf(inlineFour({ notches: [notch] }))[0]!;
    expect(part.notches[0]!.outcome).toBe(outcome);
    expect(part.area).toBeCloseTo(bare.area, 9);
  });

  test('dowels are drilled, have the metal of a bolt hole round them and a note', () => {
    const part = flangesOf(inlineFour({ dowels: [{ at: [46, 45], diameter: 8, head: null }] }))[0]!;
    expect(part.region.dowels).toEqual([{ at: [46, 45], diameter: 8 }]);
    expect(boltMargins(part).find((m) => m.place === 'dowel 1')!.distance).toBeGreaterThan(8 - 1e-6);
    const cut = part.cutLength - perimeter(part.region.outer);
    expect(cut).toBeCloseTo(bare.cutLength - perimeter(bare.region.outer), 9);
    expect(part.notes.some((n) => n.includes('ream 8.00 mm'))).toBe(true);
  });

  test('of another head stay away', () => {
    const part = flangesOf(inlineFour({ dowels: [{ at: [46, 45], diameter: 8, head: 'rear' }] }))[0]!;
    expect(part.region.dowels).toEqual([]);
  });
});

describe('against another kernel and back again', () => {
  test.each(STYLES.map((style) => [style.kind, style] as const))(
    '%s: areas of Clipper2 within 1e-3',
    async (_, style) => {
      for (const part of flangesOf(tall(style))) {
        const { outer } = part.region;
        // A union of one outline with itself: Clipper2's own area of our outline.
        expect(Math.abs((await clipperUnionArea([outer])) / outlineArea(outer) - 1)).toBeLessThan(1e-3);
        for (const by of [0.8, -0.8]) {
          const ours = outlineArea(offsetOutline(outer, by));
          expect(Math.abs((await clipperOffsetArea(outer, by)) / ours - 1)).toBeLessThan(1e-3);
        }
        for (const s of inner(part)) {
          expect(Math.abs((await clipperOffsetArea(s, -0.4)) / outlineArea(offsetOutline(s, -0.4)) - 1)).toBeLessThan(
            1e-3,
          );
        }
      }
    },
  );

  test.each(STYLES.map((style) => [style.kind, style] as const))(
    '%s: out by half a kerf and in again gives the same edge',
    (_, style) => {
      for (const part of flangesOf(tall(style))) {
        const { outer } = part.region;
        const back = offsetOutline(offsetOutline(outer, 0.8), -0.8);
        expect(outlineArea(back)).toBeCloseTo(outlineArea(outer), 4);
        expect(back.vertices).toHaveLength(outer.vertices.length);
      }
    },
  );
});
