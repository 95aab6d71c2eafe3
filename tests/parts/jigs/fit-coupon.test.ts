import { describe, expect, it } from 'vitest';
import { WORLD } from '../../../src/geometry/frame.js';
import { meshBounds, meshVolume } from '../../../src/geometry/mesh/measure.js';
import { standOf } from '../../../src/geometry/mesh/stand.js';
import { meshFaults } from '../../../src/geometry/mesh/validate.js';
import { intersection, placed, solidOf, volumeOf } from '../../../src/geometry/solid/solid.js';
import { box } from '../../../src/geometry/solid/solid-shapes.js';
import { couponFits, figuresOf, fitCoupon } from '../../../src/parts/jigs/fit-coupon.js';
import { keyFor, spigot } from '../../../src/parts/jigs/key.js';
import { jigWith } from '../../support/jig-fixture.js';

const jig = jigWith({ gap: 5, chamfer: 0.4 });

describe('fit coupon', () => {
  it('has five gaps about the plan, none below zero, none twice', () => {
    expect(couponFits(0.2)).toEqual([0.1, 0.15, 0.2, 0.25, 0.3]);
    expect(couponFits(0.05)).toEqual([0, 0.05, 0.1, 0.15]);
    expect(couponFits(0)).toEqual([0, 0.05, 0.1]);
    expect([0, 0.05, 0.2].map(figuresOf)).toEqual(['0', '.05', '.2']);
  });

  it('is two closed bodies that fit the bed and lean nowhere out', () => {
    for (const plan of [
      jig,
      { ...jig, bed: [60, 50, 60] as const },
      { ...jig, chamfer: 0, fit: 0 },
      { ...jig, strut: 9 },
    ]) {
      for (const part of fitCoupon(plan)) {
        expect(meshFaults(part.mesh, { bodies: 1 }), part.name).toEqual([]);
        expect(part.tooBig, part.name).toBeNull();
        expect(standOf(part.mesh, jig.print.overhang).overhang, part.name).toBeLessThan(0.01);
      }
    }
  });

  it('takes the key of the struts in every socket, with the gap it names all round', () => {
    const block = fitCoupon(jig)[0]!;
    const key = keyFor(jig.strut!, jig.fit);
    const { low, high } = meshBounds(block.mesh);
    // along the row of sockets the key drops in at five places only: slid from end to end, it meets plastic in between
    const at = (x: number, y: number, radius: number) => {
      const grown = { ...key, radius: key.radius + radius, flat: key.flat + radius };
      const mouth = {
        origin: [x, y, high[2] - 0.6] as const,
        x: [-1, 0, 0] as const,
        y: [0, 1, 0] as const,
        z: [0, 0, -1] as const,
      };
      return volumeOf(intersection(solidOf(block.mesh), placed(spigot(grown, jig.keyLength, WORLD, 0), mouth)));
    };
    const pitch = (high[0] - low[0] - 3) / 5;
    const y = high[1] - 3 - (key.radius + 0.3);
    couponFits(0.2).forEach((fit, i) => {
      const x = low[0] + i * pitch + (pitch + 3) / 2;
      expect(at(x, y, fit - 0.02)).toBeLessThan(0.01);
      expect(at(x, y, fit + 0.05)).toBeGreaterThan(1);
    });
    expect(at(low[0] + pitch + 1.5, y, 0)).toBeGreaterThan(10);
  });

  it('is chamfered where it stands, and no larger than it would be without', () => {
    const area = (chamfer: number, k: number) =>
      standOf(fitCoupon({ ...jig, chamfer })[k]!.mesh, jig.print.overhang).foot;
    const [block, key] = fitCoupon(jig);
    expect(area(0.4, 0)).toBeCloseTo((block!.size[0] - 0.8) * (block!.size[1] - 0.8), 1);
    expect(Math.abs(area(0.4, 1) / (Math.PI * 7.6 ** 2) - 1)).toBeLessThan(0.01);
    expect(meshVolume(key!.mesh)).toBeLessThan(meshVolume(fitCoupon({ ...jig, chamfer: 0 })[1]!.mesh));
    const layer = solidOf(block!.mesh);
    const b = meshBounds(block!.mesh);
    const whole = volumeOf(intersection(layer, box([b.low[0], b.low[1], 0.5], [b.high[0], b.high[1], 1])));
    expect(whole).toBeCloseTo(block!.size[0] * block!.size[1] * 0.5, 0);
  });
});
