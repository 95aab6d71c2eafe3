import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/geometry/angle.js';
import { cornersOf, meshVolume, pointOf, triangleCount } from '../../../src/geometry/mesh/measure.js';
import type { Mesh } from '../../../src/geometry/mesh/mesh.js';
import { meshFaults } from '../../../src/geometry/mesh/validate.js';
import { pathFromPolygon } from '../../../src/geometry/path/control-polygon.js';
import { endOf, type Path, pathLength, startOf } from '../../../src/geometry/path/path.js';
import { sweepRound, sweptSectionArea } from '../../../src/geometry/sweep/sweep.js';
import { CHORD_ERROR } from '../../../src/geometry/tolerance.js';
import { add, dot, length, rotateAbout, scale, sub, type Vec3 } from '../../../src/geometry/vec3.js';

const staircase = pathFromPolygon({
  points: [
    [0, 0, 0],
    [100, 0, 0],
    [100, 150, 0],
    [100, 150, 120],
    [220, 150, 120],
  ],
  clr: [40, 40, 40],
});

/** Distance from the centreline, mm, by its segments: an own formula, not the sweep's. */
function offCentreline(path: Path, p: Vec3): number {
  let least = Infinity;
  for (const s of path.segments) {
    if (s.kind === 'straight') {
      const run = Math.min(s.length, Math.max(0, dot(sub(p, s.from), s.direction)));
      least = Math.min(least, length(sub(p, add(s.from, scale(s.direction, run)))));
      continue;
    }
    const spoke = scale(sub(s.from, s.centre), 1 / s.clr);
    const v = sub(p, s.centre);
    const angle = Math.min(s.angle, Math.max(0, Math.atan2(dot(v, s.direction), dot(v, spoke))));
    const on = add(s.centre, scale(rotateAbout(spoke, s.normal, angle), s.clr));
    least = Math.min(least, length(sub(p, on)));
  }
  return least;
}

/** Largest distance from the true tube surface over points spread on every facet of the skin, mm. */
function chordError(mesh: Mesh, path: Path, radius: number): number {
  const ends = [startOf(path), endOf(path)];
  let worst = 0;
  for (let t = 0; t < triangleCount(mesh); t++) {
    const [a, b, c] = cornersOf(mesh, t);
    const onEnd = ends.some((e) => [a, b, c].every((p) => Math.abs(dot(sub(p, e.point), e.direction)) < 1e-6));
    if (onEnd) continue;
    for (const [u, v, w] of [
      [1 / 3, 1 / 3, 1 / 3],
      [0.5, 0.5, 0],
      [0, 0.5, 0.5],
      [0.5, 0, 0.5],
    ] as const) {
      const p = add(add(scale(a, u), scale(b, v)), scale(c, w));
      worst = Math.max(worst, Math.abs(offCentreline(path, p) - radius));
    }
  }
  return worst;
}

describe('round sweep along a path', () => {
  it('is closed, one body, with every corner on the true surface or on an end face', () => {
    const mesh = sweepRound(staircase, 22.225);
    expect(meshFaults(mesh, { bodies: 1 })).toEqual([]);
    for (let i = 0; i < mesh.positions.length / 3; i++) {
      expect(Math.abs(offCentreline(staircase, pointOf(mesh, i)) - 22.225)).toBeLessThan(1e-9);
    }
  });

  it('keeps its facets within the chord error, round the tube and along the bends', () => {
    for (const [radius, path] of [
      [22.225, staircase],
      [12, staircase],
      [38, staircase],
    ] as const) {
      const worst = chordError(sweepRound(path, radius), path, radius);
      expect(worst).toBeLessThanOrEqual(CHORD_ERROR);
      expect(worst).toBeGreaterThan(CHORD_ERROR / 4); // no finer than it need be
    }
  });

  it("has the volume of Pappus: section times the centroid's way (second theorem of Pappus and Guldin)", () => {
    fc.assert(
      fc.property(fc.integer({ min: 12, max: 30 }), fc.integer({ min: 5, max: 170 }), (radius, turn) => {
        const a = radians(turn);
        const clr = radius * 1.5;
        const t = clr * Math.tan(a / 2);
        const path = pathFromPolygon({
          points: [
            [0, 0, 0],
            [t + 10, 0, 0],
            [t + 10 + (t + 5) * Math.cos(a), (t + 5) * Math.sin(a), 0],
          ],
          clr: [clr],
        });
        const volume = meshVolume(sweepRound(path, radius));
        const polygonal = sweptSectionArea(radius) * pathLength(path);
        const round = Math.PI * radius * radius * pathLength(path);
        expect(volume).toBeLessThan(polygonal * (1 + 1e-9));
        // along a bend the chords shorten the way by sin(h) / h, h half a step at the outside radius: at most error / (2 (R + r)) ... / 3
        expect(volume / polygonal).toBeGreaterThan(1 - CHORD_ERROR / (clr + radius));
        expect(volume / round).toBeGreaterThan(1 - (2 * CHORD_ERROR) / radius);
      }),
      { seed: 5, numRuns: 40 },
    );
  });

  it('is exactly the polygonal section times the length on a straight', () => {
    const path = pathFromPolygon({
      points: [
        [3, 2, 1],
        [40, 80, 15],
      ],
      clr: [],
    });
    expect(meshVolume(sweepRound(path, 19.05))).toBeCloseTo(sweptSectionArea(19.05) * pathLength(path), 5);
  });

  it('refuses a bend tighter than the tube', () => {
    expect(() => sweepRound(staircase, 41)).toThrow(/too tight/);
  });
});
