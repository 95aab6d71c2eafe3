import { describe, expect, it } from 'vitest';
import { chordsAlong, chordsRound } from '../../../src/geometry/chord.js';
import { frameAlong, pointInto } from '../../../src/geometry/frame.js';
import { meshBounds, meshVolume } from '../../../src/geometry/mesh/measure.js';
import { meshFaults } from '../../../src/geometry/mesh/validate.js';
import { pathFromPolygon } from '../../../src/geometry/path/control-polygon.js';
import { endOf, pathLength, startOf } from '../../../src/geometry/path/path.js';
import { pathInto } from '../../../src/geometry/path/placed.js';
import { geom3FromMesh, jscadPoint, meshFromGeom3 } from '../../../src/geometry/solid/jscad-mesh.js';
import { evaluate, volumeOf } from '../../../src/geometry/solid/solid.js';
import { bar, box, circlePoints, prism, signedArea } from '../../../src/geometry/solid/solid-shapes.js';
import { textSolid, textStrokes } from '../../../src/geometry/solid/text-solid.js';
import { distance, unit } from '../../../src/geometry/vec3.js';
import { meshArea } from '../../support/mesh-area.js';
import { pathGaps } from '../../support/path-soundness.js';

describe('chords', () => {
  it('are as many as the sagitta asks for and hardly more', () => {
    for (const r of [2, 5, 20, 80, 500]) {
      for (const e of [0.01, 0.05, 0.5]) {
        const n = chordsRound(r, e);
        expect(n % 4).toBe(0);
        expect(r * (1 - Math.cos(Math.PI / n))).toBeLessThanOrEqual(e + 1e-9);
        if (n > 12) expect(r * (1 - Math.cos(Math.PI / (n - 4)))).toBeGreaterThan(e - 1e-9);
        expect(chordsAlong(r, 2 * Math.PI, e)).toBeLessThanOrEqual(n);
      }
    }
    expect(() => chordsRound(0, 0.05)).toThrow(RangeError);
    expect(() => chordsAlong(10, 1, -1)).toThrow(RangeError);
  });
});

describe('shapes', () => {
  it('have their closed-form volumes and boxes', () => {
    expect(volumeOf(box([1, 2, 3], [4, 6, 8]))).toBeCloseTo(60, 4);
    const n = chordsRound(10);
    expect(volumeOf(bar(10, -3, 7))).toBeCloseTo(((n * 100) / 2) * Math.sin((2 * Math.PI) / n) * 10, 2);
    // frustum: pi h (R^2 + R r + r^2) / 3, common geometry
    expect(volumeOf(bar(20, 0, 30, 10)) / ((Math.PI * 30 * 700) / 3)).toBeGreaterThan(0.995);
    expect(meshBounds(evaluate(bar(10, -3, 7)))).toMatchObject({ low: [-10, -10, -3], high: [10, 10, 7] });
  });

  it('make prisms of outlines that run either way', () => {
    const ell = [
      [0, 0],
      [10, 0],
      [10, 4],
      [4, 4],
      [4, 10],
      [0, 10],
    ] as const;
    expect(signedArea(ell)).toBe(64);
    for (const points of [ell, [...ell].reverse()]) {
      const mesh = evaluate(prism(points, -2, 3));
      expect(meshFaults(mesh, { bodies: 1 })).toEqual([]);
      expect(meshVolume(mesh)).toBeCloseTo(320, 3);
      expect(meshBounds(mesh)).toEqual({ low: [0, 0, -2], high: [10, 10, 3] });
    }
  });

  it('put corners on the round or chords outside it, as asked', () => {
    for (const p of circlePoints(8)) expect(Math.hypot(...p)).toBeCloseTo(8, 12);
    const outside = circlePoints(8, 0.05, 'chords-outside');
    const middle = outside.map((p, i) => {
      const q = outside[(i + 1) % outside.length]!;
      return Math.hypot((p[0] + q[0]) / 2, (p[1] + q[1]) / 2);
    });
    for (const r of middle) expect(r).toBeCloseTo(8, 12);
  });

  it('survive the way to jscad and back', () => {
    const mesh = evaluate(bar(5, 0, 9));
    const back = meshFromGeom3(geom3FromMesh(mesh));
    expect(meshFaults(back, { bodies: 1 })).toEqual([]);
    expect(meshVolume(back)).toBeCloseTo(meshVolume(mesh), 9);
    expect(meshArea(back)).toBeCloseTo(meshArea(mesh), 9);
    expect(jscadPoint([1, 2, 3])).toEqual([1, 2, 3]);
  });
});

describe('text', () => {
  it('is as high as asked, about its middle, closed, and between its two heights', () => {
    for (const text of ['1', '2C', '12B-2', 'S3']) {
      const strokes = textStrokes(text, 8);
      expect(strokes.height).toBeCloseTo(8, 9);
      const mesh = evaluate(textSolid(strokes, -1, 0.6));
      expect(meshFaults(mesh)).toEqual([]);
      const { low, high } = meshBounds(mesh);
      expect([low[2], high[2]]).toEqual([-1, Math.fround(0.6)]);
      expect(high[0] - low[0]).toBeLessThanOrEqual(strokes.width + 1e-5);
      expect(Math.abs(low[0] + high[0])).toBeLessThan(0.2);
    }
    expect(() => textStrokes(' ', 8)).toThrow(/nothing to write/);
  });
});

describe('path in a frame', () => {
  it('keeps its length, joints and ends', () => {
    const path = pathFromPolygon({
      points: [
        [0, 0, 0],
        [90, 0, 0],
        [90, 80, 40],
        [10, 120, 90],
      ],
      clr: [30, 30],
    });
    const frame = frameAlong([7, -20, 400], unit([1, 1, -0.4]), 0.7);
    const inside = pathInto(frame, path);
    expect(pathLength(inside)).toBeCloseTo(pathLength(path), 9);
    expect(pathGaps(inside).place).toBeLessThan(1e-9);
    expect(distance(startOf(inside).point, pointInto(frame, [0, 0, 0]))).toBeLessThan(1e-9);
    expect(distance(endOf(inside).point, pointInto(frame, [10, 120, 90]))).toBeLessThan(1e-9);
  });
});
