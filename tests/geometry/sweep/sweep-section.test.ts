import { describe, expect, it } from 'vitest';
import { frameAlong } from '../../../src/geometry/frame.js';
import { meshBounds, meshVolume } from '../../../src/geometry/mesh/measure.js';
import { meshFaults } from '../../../src/geometry/mesh/validate.js';
import { pathFromPolygon } from '../../../src/geometry/path/control-polygon.js';
import { pathLength } from '../../../src/geometry/path/path.js';
import { evaluate, footChamfered, intersection, placed, solidOf, trimmed } from '../../../src/geometry/solid/solid.js';
import { bar, box, circlePoints, signedArea } from '../../../src/geometry/solid/solid-shapes.js';
import { sweepSection } from '../../../src/geometry/sweep/sweep.js';
import { CHORD_ERROR } from '../../../src/geometry/tolerance.js';
import type { Vec3 } from '../../../src/geometry/vec3.js';

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

  it('leaves nothing hanging beside the foot where a round skin leans out over it', () => {
    const [radius, flat, size] = [8, 0.4, 0.4];
    const lying = trimmed(placed(bar(radius, 0, 40), frameAlong([0, 0, radius - flat], [1, 0, 0])), {
      point: [0, 0, 0],
      normal: [0, 0, 1],
    });
    const mesh = evaluate(footChamfered(lying, size));
    expect(meshFaults(mesh, { bodies: 1 })).toEqual([]);
    // in each layer no more than the outline in its middle, drawn in
    const half = (z: number): number => Math.sqrt(radius ** 2 - (radius - flat - z) ** 2);
    for (const [z, inset] of [
      [0.1, 0.3],
      [0.3, 0.1],
    ] as const) {
      const layer = evaluate(intersection(solidOf(mesh), box([-1, -20, z - 0.09], [50, 20, z + 0.09])));
      const { low, high } = meshBounds(layer);
      expect(high[1]).toBeLessThan(half(z) - inset + CHORD_ERROR);
      expect(low[0]).toBeGreaterThan(inset - 0.01);
      expect(high[0]).toBeLessThan(40 - inset + 0.01);
    }
  });
});
