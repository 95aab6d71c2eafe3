import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frameAlong } from '../../../src/geometry/frame.js';
import { pathFromPolygon } from '../../../src/geometry/path/control-polygon.js';
import { headingAt, type Path, partOfPath, pathLength } from '../../../src/geometry/path/path.js';
import { fieldOf } from '../../../src/geometry/scan/field.js';
import { scanOf } from '../../../src/geometry/scan/scan.js';
import { minGap, type Solid, solidOf, union } from '../../../src/geometry/solid/solid.js';
import type { Obstacle } from '../../../src/geometry/space/obstacle.js';
import { skinGap, skinGapTo, type TubeRun } from '../../../src/geometry/space/skin-gap.js';
import { sweepRound } from '../../../src/geometry/sweep/sweep.js';
import { DISTANCE_ERROR } from '../../../src/geometry/tolerance.js';
import { add, along, perpendicularTo, sub, type Vec3 } from '../../../src/geometry/vec3.js';
import { centrelineGap, centrelineGapTo, U_PATH } from '../../support/centreline-gap.js';
import { arbitraryTube } from '../../support/random-path.js';

/** Tubes of one to three radii, 8 to 30 mm: less than any bend of the random tubes. */
const arbitraryStepped: fc.Arbitrary<TubeRun> = fc
  .tuple(
    arbitraryTube,
    fc.array(fc.tuple(fc.double({ min: 0.05, max: 0.95, noNaN: true }), fc.integer({ min: 8, max: 30 })), {
      maxLength: 2,
    }),
    fc.integer({ min: 8, max: 30 }),
  )
  .map(([polygon, later, radius]) => {
    const path = pathFromPolygon(polygon);
    const length = pathLength(path);
    const places = [...later]
      .sort((a, b) => a[0] - b[0])
      .filter(([at], i, all) => i === 0 || at - all[i - 1]![0] > 0.01);
    return { path, steps: [{ from: 0, radius }, ...places.map(([at, r]) => ({ from: at * length, radius: r }))] };
  });

/** Every part of one radius by itself. */
function partsOf({ path, steps }: TubeRun): { readonly path: Path; readonly radius: number; readonly from: number }[] {
  const length = pathLength(path);
  return steps.map((s, i) => ({
    path: partOfPath(path, s.from, steps[i + 1]?.from ?? length),
    radius: s.radius,
    from: s.from,
  }));
}

describe('least gap between skins of stepped tubes', () => {
  it('of tubes of one radius is the distance of their centrelines less both radii', () => {
    fc.assert(
      fc.property(arbitraryTube, arbitraryTube, (p, q) => {
        const [a, b] = [pathFromPolygon(p), pathFromPolygon(q)];
        const gap = skinGap(
          { path: a, steps: [{ from: 0, radius: 20 }] },
          { path: b, steps: [{ from: 0, radius: 11 }] },
        );
        expect(Math.abs(gap.gap - (centrelineGap(a, b).gap - 31))).toBeLessThanOrEqual(DISTANCE_ERROR);
      }),
      { numRuns: 100 },
    );
  });

  it('is the least of all pairs of parts, and there where it says', () => {
    fc.assert(
      fc.property(arbitraryStepped, arbitraryStepped, (a, b) => {
        const found = skinGap(a, b);
        const each = partsOf(a).flatMap((p) =>
          partsOf(b).map((q) => centrelineGap(p.path, q.path).gap - p.radius - q.radius),
        );
        expect(Math.abs(found.gap - Math.min(...each))).toBeLessThanOrEqual(DISTANCE_ERROR + 1e-9);
        const back = skinGap(b, a);
        expect(Math.abs(found.gap - back.gap)).toBeLessThanOrEqual(DISTANCE_ERROR);
        expect(found.run).toBeGreaterThanOrEqual(0);
        expect(found.run).toBeLessThanOrEqual(pathLength(a.path) + 1e-9);
      }),
      { numRuns: 100 },
    );
  });

  it('to an obstacle is the least of all parts', () => {
    const obstacles: Obstacle[] = [
      { kind: 'box', frame: frameAlong([50, 0, 0], [0, 0.6, 0.8]), from: [-10, -20, -30], to: [10, 20, 30] },
      { kind: 'cylinder', frame: frameAlong([0, 0, 0], [0, 1, 0]), radius: 15, length: 100 },
      { kind: 'capsule', frame: frameAlong([0, 80, 0], [1, 0, 0]), radius: 15, length: 100 },
      { kind: 'half-space', point: [0, 0, 5], normal: [0, 0, 1] },
    ];
    fc.assert(
      fc.property(arbitraryStepped, fc.constantFrom(...obstacles), (a, o) => {
        const each = partsOf(a).map((p) => centrelineGapTo(p.path, o).gap - p.radius);
        expect(Math.abs(skinGapTo(a, o).gap - Math.min(...each))).toBeLessThanOrEqual(DISTANCE_ERROR + 1e-9);
      }),
      { numRuns: 200 },
    );
  });

  it('of one tube to itself counts each radius where it is', () => {
    // the second leg of the U is thicker
    const length = pathLength(U_PATH);
    const tube: TubeRun = {
      path: U_PATH,
      steps: [
        { from: 0, radius: 20 },
        { from: length - 240, radius: 25 },
      ],
    };
    const found = skinGap(tube, tube, DISTANCE_ERROR, 400);
    expect(found.gap).toBeCloseTo(160 - 45, 2);
    expect(found.otherRun - found.run).toBeGreaterThanOrEqual(400 - DISTANCE_ERROR);
  });

  it('of one tube to itself, within one straight or bend, is the closed form', () => {
    const straight = pathFromPolygon({
      points: [
        [0, 0, 0],
        [300, 0, 0],
      ],
      clr: [],
    });
    expect(centrelineGap(straight, straight, DISTANCE_ERROR, 120).gap).toBeCloseTo(120, 9);
    expect(centrelineGap(straight, straight, DISTANCE_ERROR, 301).gap).toBe(Number.POSITIVE_INFINITY);
    // 2 R sin(l / 2 R) on a bend of 150 degrees
    const bend = pathFromPolygon({
      points: [
        [-1000, 0, 0],
        [0, 0, 0],
        [-1000 * Math.cos(Math.PI / 6), 500, 0],
      ],
      clr: [60],
    });
    expect(centrelineGap(bend, bend, DISTANCE_ERROR, 120).gap).toBeCloseTo(120 * Math.sin(1), 2);
  });
});

/** The tube moved to where its middle stands beside the middle of another one. */
function besideMiddle(tube: TubeRun, other: TubeRun, apart: number): TubeRun {
  const middle = (t: TubeRun): Vec3 => headingAt(t.path, pathLength(t.path) / 2).point;
  const { direction } = headingAt(other.path, pathLength(other.path) / 2);
  const shift = sub(along(middle(other), perpendicularTo(direction), apart), middle(tube));
  const segments = tube.path.segments.map((s) =>
    s.kind === 'straight'
      ? { ...s, from: add(s.from, shift) }
      : { ...s, from: add(s.from, shift), centre: add(s.centre, shift) },
  );
  return { ...tube, path: { segments } };
}

describe('gaps against the boolean kernel', () => {
  /** Largest distance of a facet from the true skin, mm; two skins, and the kernel's 32-bit coordinates. */
  const FACET = 0.05;
  const SLACK = 2 * FACET + DISTANCE_ERROR + 0.001;

  const solid = (tube: TubeRun): Solid => {
    const [first, ...rest] = partsOf(tube).map((p) => solidOf(sweepRound(p.path, p.radius, FACET)));
    return rest.length ? union(first!, ...rest) : first!;
  };

  it('swept tubes stand as far apart as their skins are said to, but for flat ends', () => {
    let compared = 0;
    fc.assert(
      fc.property(
        arbitraryStepped,
        arbitraryStepped,
        fc.double({ min: 20, max: 120, noNaN: true }),
        (a, other, apart) => {
          const b = besideMiddle(other, a, apart);
          const found = skinGap(a, b);
          if (found.gap < 0.5 || found.gap > 60) return;
          const measured = minGap(solid(a), solid(b), found.gap + 1);
          // ours rounds off ends and steps, so flat ones are never nearer
          expect(measured).toBeGreaterThanOrEqual(found.gap - SLACK);
          const steps = (t: TubeRun): number[] => [...t.steps.map((s) => s.from), pathLength(t.path)];
          const inside = (t: TubeRun, run: number): boolean => steps(t).every((s) => Math.abs(run - s) > 1);
          if (!inside(a, found.run) || !inside(b, found.otherRun)) return;
          expect(measured).toBeLessThanOrEqual(found.gap + SLACK);
          compared++;
        },
      ),
      { numRuns: 150, seed: 21 },
    );
    expect(compared).toBeGreaterThan(5);
  });

  it('a scan of a swept tube stands as far off as the tube', () => {
    let compared = 0;
    fc.assert(
      fc.property(
        arbitraryStepped,
        arbitraryTube,
        fc.double({ min: 70, max: 150, noNaN: true }),
        (a, polygon, apart) => {
          const b = besideMiddle({ path: pathFromPolygon(polygon), steps: [{ from: 0, radius: 20 }] }, a, apart);
          const found = skinGap(a, b);
          if (found.gap < 0.5 || found.otherRun < 1 || found.otherRun > pathLength(b.path) - 1) return;
          const reach = { from: [-1500, -1500, -1500], to: [1500, 1500, 1500] } as const;
          const field = fieldOf(scanOf(sweepRound(b.path, 20, FACET)), reach);
          expect(Math.abs(skinGapTo(a, { kind: 'mesh', field }).gap - found.gap)).toBeLessThanOrEqual(
            FACET + DISTANCE_ERROR,
          );
          compared++;
        },
      ),
      { numRuns: 60, seed: 5 },
    );
    expect(compared).toBeGreaterThan(5);
  });
});
