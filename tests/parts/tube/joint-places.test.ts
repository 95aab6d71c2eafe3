import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/geometry/angle.js';
import type { StockBend } from '../../../src/params/plan.js';
import { jointPlaces, type StraightRun, type TubeBend } from '../../../src/parts/tube/joint-places.js';

const U: StockBend = { clr: 60, maxAngle: Math.PI, leg: 80, shortLeg: 80 };
const J: StockBend = { clr: 60, maxAngle: radians(90), leg: 100, shortLeg: 30 };

/** Straights and bends laid end to end from 0. */
function laid(lengths: readonly number[], bends: readonly TubeBend[], steps: readonly number[][] = []) {
  let run = 0;
  const straights: StraightRun[] = lengths.map((length, i) => {
    const from = run;
    run += length;
    const own = (steps[i] ?? []).map((share) => from + share * length);
    const straight = { from, to: run, steps: own };
    run += bends[i] ? bends[i]!.clr * bends[i]!.angle : 0;
    return straight;
  });
  return { straights, bends };
}

const places = ({ straights, bends }: ReturnType<typeof laid>): number[] => jointPlaces(straights, bends);
const of = (angle: number, ...stock: StockBend[]): TubeBend => ({ clr: 60, angle: radians(angle), stock });

describe('places of joints', () => {
  it('a bend of less than its stock keeps one leg: two straights are two pieces', () => {
    const arc = 60 * radians(120);
    // the longer of the two stays on the bend: less straight stock
    expect(places(laid([50, 70], [of(120, U)]))).toEqual([50]);
    expect(places(laid([70, 50], [of(120, U)]))).toEqual([70 + arc]);
    expect(places(laid([90, 50], [of(120, U)]))).toEqual([90]);
    expect(places(laid([90, 90], [of(120, U)]))).toEqual([90, 90 + arc]);
  });

  it('the whole bend of the stock keeps both, a J-bend its long leg on either end', () => {
    expect(places(laid([70, 80], [of(180, U)]))).toEqual([]);
    expect(places(laid([30, 100], [of(90, J)]))).toEqual([]);
    expect(places(laid([100, 30], [of(90, J)]))).toEqual([]);
    expect(places(laid([40, 100], [of(90, J)]))).toEqual([40]);
    expect(places(laid([31, 31], [of(90, J)]))).toHaveLength(1);
  });

  it('a straight too long for one leg is split where the leg before ends', () => {
    const arc = 60 * radians(90);
    // the first and last straight are too long for any leg
    expect(places(laid([200, 150, 200], [of(90, J), of(60, U)]))).toEqual(
      [200, 200 + arc + 100, 200 + arc + 150, 200 + arc + 150 + 60 * radians(60)].filter((_, i) => i !== 2),
    );
  });

  it('a straight that fits one leg is not split, and stays on the bend before', () => {
    const arc = 60 * radians(90);
    const found = places(laid([200, 60, 200], [of(90, U), of(90, U)]));
    expect(found).toEqual([200, 200 + arc + 60, 200 + arc + 60 + arc]);
  });

  it('where bends follow each other there is one joint, and a tube without bends has none', () => {
    expect(places(laid([0, 0, 0], [of(90, U), of(45, U)]))).toEqual([60 * radians(90)]);
    expect(places(laid([300], []))).toEqual([]);
    expect(places(laid([300], [], [[0.5]]))).toEqual([150]);
  });

  it('a bend that no stock makes keeps any leg up to the longest of its radius', () => {
    expect(places(laid([70, 80], [of(180, { ...U, maxAngle: 3 })]))).toEqual([]);
    expect(places(laid([70, 81], [of(180, { ...U, maxAngle: 3 })]))).toHaveLength(1);
    expect(places(laid([70, 81], [of(180)]))).toHaveLength(2);
  });
});

const legLength = fc.constantFrom(0, 10, 25, 40, 60, 90);
const angle = fc.constantFrom(30, 60, 90, 180).map(radians);
const stockBend: fc.Arbitrary<StockBend> = fc
  .record({
    clr: fc.constantFrom(50, 60),
    maxAngle: fc.constantFrom(60, 90, 180).map(radians),
    a: legLength,
    b: legLength,
  })
  .map(({ a, b, ...rest }) => ({ ...rest, leg: Math.max(a, b), shortLeg: Math.min(a, b) }));
const tube = fc
  .record({
    bends: fc.array(fc.record({ clr: fc.constantFrom(50, 60), angle, stock: fc.array(stockBend, { maxLength: 3 }) }), {
      maxLength: 3,
    }),
    lengths: fc.array(fc.constantFrom(0, 10, 20, 35, 40, 65, 85, 100, 150, 190), { minLength: 4, maxLength: 4 }),
    steps: fc.array(fc.constantFrom<number[]>([], [], [], [0.5], [0], [1], [0.25, 0.75]), {
      minLength: 4,
      maxLength: 4,
    }),
  })
  .map(({ bends, lengths, steps }) => laid(lengths.slice(0, bends.length + 1), bends, steps));

/** What bent stock gives, in the words of the trade: a cut from the middle of the bend leaves one leg. */
function canBeMade({ clr, angle, stock }: TubeBend, before: number, after: number): boolean {
  const fits = stock.filter((s) => s.clr === clr && angle <= s.maxAngle);
  if (fits.length === 0) {
    return Math.max(before, after) <= Math.max(0, ...stock.filter((s) => s.clr === clr).map((s) => s.leg));
  }
  return fits.some((s) => {
    if (angle < s.maxAngle) return Math.min(before, after) === 0 && Math.max(before, after) <= s.leg;
    return (before <= s.leg && after <= s.shortLeg) || (after <= s.leg && before <= s.shortLeg);
  });
}

const legsTried = (straight: number): number[] => [
  ...Array.from({ length: Math.floor(straight / 5) + 1 }, (_, i) => 5 * i),
  straight,
];

/** Fewest joints by trying everything: every straight whole, own, or split on a grid of 5 mm. */
function fewest({ straights, bends }: ReturnType<typeof laid>): number {
  const known = new Map<string, number>();
  const best = (i: number, legBefore: number): number => {
    const key = `${i} ${legBefore}`;
    const least = known.get(key) ?? tried(i, legBefore);
    known.set(key, least);
    return least;
  };
  const tried = (i: number, legBefore: number): number => {
    const { from, to, steps } = straights[i]!;
    const before = bends[i - 1];
    const after = bends[i];
    let least = Number.POSITIVE_INFINITY;
    const stretches = [from, ...steps, to];
    const first = steps.length > 0 ? steps[0]! - from : to - from;
    const last = steps.length > 0 ? to - steps.at(-1)! : to - from;
    const lone = stretches.length === 2;
    for (const a of legsTried(first)) {
      for (const b of legsTried(last)) {
        if (lone ? a + b > first + 1e-9 : false) continue;
        if (!before && a > 0) continue;
        if (!after && b > 0) continue;
        if (before && !canBeMade(before, legBefore, a)) continue;
        let joints = steps.length;
        if (lone) {
          const rest = first - a - b > 1e-9;
          joints += before && after ? (rest ? 2 : 1) : before || after ? (rest ? 1 : 0) : 0;
        } else {
          joints += before && first - a > 1e-9 ? 1 : 0;
          joints += after && last - b > 1e-9 ? 1 : 0;
        }
        const rest = after ? best(i + 1, b) : 0;
        least = Math.min(least, joints + rest);
      }
    }
    return least;
  };
  return best(0, 0);
}

describe('places of joints, of random tubes', () => {
  it('are never more than brute force finds, and every bend can be made', () => {
    fc.assert(
      fc.property(tube, (t) => {
        const joints = places(t);
        expect(joints).toHaveLength(fewest(t));
        expect(joints).toEqual([...joints].sort((a, b) => a - b));
        t.bends.forEach((bend, i) => {
          const [start, end] = [t.straights[i]!.to, t.straights[i + 1]!.from];
          const last = Math.max(0, ...joints.filter((x) => x <= start + 1e-9));
          const next = Math.min(t.straights.at(-1)!.to, ...joints.filter((x) => x >= end - 1e-9));
          expect(joints.some((x) => x > start + 1e-9 && x < end - 1e-9)).toBe(false);
          const tidy = (x: number): number => Math.round(x * 1e6) / 1e6;
          expect(canBeMade(bend, tidy(start - last), tidy(next - end))).toBe(true);
        });
      }),
      { numRuns: 300 },
    );
  });
});
