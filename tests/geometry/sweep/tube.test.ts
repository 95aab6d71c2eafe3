import { describe, expect, it } from 'vitest';
import { meshVolume, shellsOf } from '../../../src/geometry/mesh/measure.js';
import { meshFaults } from '../../../src/geometry/mesh/validate.js';
import { pathFromPolygon } from '../../../src/geometry/path/control-polygon.js';
import { type Path, pathLength } from '../../../src/geometry/path/path.js';
import { sweepRound, sweptSectionArea } from '../../../src/geometry/sweep/sweep.js';
import { sweepTube } from '../../../src/geometry/sweep/tube.js';

const bent = pathFromPolygon({
  points: [
    [0, 0, 0],
    [0, 0, 120],
    [90, 40, 200],
    [90, -160, 260],
  ],
  clr: [50, 63.5],
});
const straight: Path = { segments: [{ kind: 'straight', from: [3, 2, 1], direction: [0, 0.6, 0.8], length: 80 }] };

describe('a tube swept along a path', () => {
  it.each([
    ['bent', bent],
    ['straight', straight],
  ])('is one closed body with one way through: %s', (_, path) => {
    const mesh = sweepTube(path, 21.2, 19.6);
    expect(meshFaults(mesh, { bodies: 1 })).toEqual([]);
    expect(shellsOf(mesh)[0]!.genus).toBe(1);
  });

  it.each([
    ['bent', bent],
    ['straight', straight],
  ])('has the volume of the bar of its outside less the share of its bore: %s', (_, path) => {
    const bar = meshVolume(sweepRound(path, 21.2));
    const share = 1 - (19.6 / 21.2) ** 2;
    expect(meshVolume(sweepTube(path, 21.2, 19.6)) / (bar * share)).toBeCloseTo(1, 9);
    // Pappus: section times the way of its centre, less what the chords of the bends cut off
    const exact = sweptSectionArea(21.2) * share * pathLength(path);
    const ratio = meshVolume(sweepTube(path, 21.2, 19.6)) / exact;
    expect(ratio).toBeLessThan(1 + 1e-12);
    expect(ratio).toBeGreaterThan(0.9995);
  });

  it('is finer the less its facets may stray', () => {
    const count = (error: number): number => sweepTube(bent, 21.2, 19.6, error).triangles.length;
    // half as far off: the root of two as many round and as many along, the straights apart
    expect(count(0.0125) / count(0.05)).toBeGreaterThan(3.2);
  });

  it('refuses a bore that is none or too wide, and a bend too tight', () => {
    expect(() => sweepTube(straight, 20, 20)).toThrow(RangeError);
    expect(() => sweepTube(straight, 20, 0)).toThrow(/bore of 0 mm/);
    expect(() => sweepTube(bent, 50, 48)).toThrow(/too tight/);
  });
});
