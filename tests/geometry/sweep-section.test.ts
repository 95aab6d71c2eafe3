import { describe, expect, it } from 'vitest';
import { meshVolume } from '../../src/geometry/mesh-measure.js';
import { meshFaults } from '../../src/geometry/mesh-validate.js';
import { pathFromPolygon, pathLength } from '../../src/geometry/path.js';
import { evaluate, footChamfered, solidOf } from '../../src/geometry/solid.js';
import { box, circlePoints, signedArea } from '../../src/geometry/solid-shapes.js';
import { sweepSection } from '../../src/geometry/sweep.js';
import { CHORD_ERROR } from '../../src/geometry/tolerance.js';
import type { Vec3 } from '../../src/geometry/vec3.js';

const bend = pathFromPolygon({
  points: [
    [0, 0, 0],
    [0, 0, 100],
    [0, 80, 140],
  ],
  clr: [60],
});
const up: Vec3 = [1, 0, 0];

describe('swept section', () => {
  it('encloses section times length (Pappus and Guldin) within the chord error', () => {
    const section = circlePoints(20, CHORD_ERROR / 2);
    const length = pathLength(bend);
    const mesh = sweepSection(bend, section, up, [
      { run: 0, size: 1 },
      { run: length, size: 1 },
    ]);
    expect(meshFaults(mesh, { bodies: 1 })).toEqual([]);
    const exact = signedArea(section) * length;
    expect(Math.abs(meshVolume(mesh) - exact)).toBeLessThan((exact * CHORD_ERROR) / 60);
  });

  it('narrows evenly: a cone holds a third of the sum of its ends and their mean', () => {
    const line = pathFromPolygon({
      points: [
        [0, 0, 0],
        [0, 0, 90],
      ],
      clr: [],
    });
    const section = circlePoints(10, CHORD_ERROR);
    const mesh = sweepSection(line, section, up, [
      { run: -5, size: 0.5 },
      { run: 85, size: 1 },
    ]);
    expect(meshVolume(mesh)).toBeCloseTo((signedArea(section) * 90 * (1 + 0.5 + 0.25)) / 3, 6);
  });
});

describe('chamfered foot', () => {
  it('takes the edge off the lowest layers only, as much as a chamfer of 45 degrees does, corners a little rounder', () => {
    const block = box([0, 0, 2], [40, 30, 10]);
    for (const size of [0.4, 0.8]) {
      const mesh = evaluate(footChamfered(block, size));
      expect(meshFaults(mesh, { bodies: 1 })).toEqual([]);
      // along four edges half a square of the chamfer goes, less at the corners where two meet
      const taken = 40 * 30 * 8 - meshVolume(mesh);
      expect(taken).toBeGreaterThan((size * size * 140) / 2 - 4 * size ** 3);
      expect(taken).toBeLessThan(1.03 * ((size * size * 140) / 2));
      const top = evaluate(footChamfered(solidOf(mesh), 0.1));
      expect(meshFaults(top, { bodies: 1 })).toEqual([]);
    }
  });
});
