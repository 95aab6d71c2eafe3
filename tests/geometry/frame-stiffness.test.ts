import { describe, expect, it } from 'vitest';
import { mostDeflection } from '../../src/geometry/frame-stiffness.js';
import { rotateAbout, unit, type Vec3 } from '../../src/geometry/vec3.js';

const PLA = { modulus: 2300, poisson: 0.35 };
const second = (r: number) => (Math.PI * r ** 4) / 4;

describe('frame of bars', () => {
  // Roark's Formulas for Stress and Strain, table of beams: end-loaded cantilever F l^3 / (3 E I)
  it.each([
    [300, 8],
    [120, 5],
  ])('a cantilever of %d mm and radius %d mm gives F l^3 / 3EI, whichever way it stands', (l, radius) => {
    for (const d of [[0, 0, 1], [0, 1, 0], unit([1, -2, 3])] as Vec3[]) {
      const frame = {
        nodes: [
          [10, 20, 30],
          [10 + l * d[0], 20 + l * d[1], 30 + l * d[2]],
        ] as Vec3[],
        held: [0],
        bars: [{ from: 0, to: 1, radius }],
      };
      expect(mostDeflection(frame, 1, 5, PLA)).toBeCloseTo((5 * l ** 3) / (3 * PLA.modulus * second(radius)), 6);
    }
  });

  it('a bar held at both ends gives F l^3 / 192 EI in the middle, and parting a bar changes nothing', () => {
    const at = (x: number): Vec3 => [x, 0, 0];
    const bars = [0, 1, 2, 3].map((i) => ({ from: i, to: i + 1, radius: 6 }));
    const frame = { nodes: [0, 50, 100, 130, 200].map(at), held: [0, 4], bars };
    expect(mostDeflection(frame, 2, 5, PLA)).toBeCloseTo((5 * 200 ** 3) / (192 * PLA.modulus * second(6)), 6);
  });

  it('a bent arm adds its twist: F (a^3 + b^3) / 3EI + F a^2 b / GJ across its plane', () => {
    const [a, b, r] = [60, 90, 5];
    const frame = {
      nodes: [
        [0, 0, 0],
        [b, 0, 0],
        [b, a, 0],
      ] as Vec3[],
      held: [0],
      bars: [
        { from: 0, to: 1, radius: r },
        { from: 1, to: 2, radius: r },
      ],
    };
    const shear = PLA.modulus / (2 * (1 + PLA.poisson));
    const across = (a ** 3 + b ** 3) / (3 * PLA.modulus * second(r)) + (a * a * b) / (shear * 2 * second(r));
    expect(mostDeflection(frame, 2, 1, PLA)).toBeCloseTo(across, 6);
    const turned = frame.nodes.map((p) => rotateAbout(p, unit([1, 1, 1]), 0.7));
    expect(mostDeflection({ ...frame, nodes: turned }, 2, 1, PLA)).toBeCloseTo(across, 6);
  });

  it('refuses a frame that nothing holds', () => {
    const frame = {
      nodes: [
        [0, 0, 0],
        [1, 0, 0],
      ] as Vec3[],
      held: [],
      bars: [{ from: 0, to: 1, radius: 1 }],
    };
    expect(() => mostDeflection(frame, 1, 1, PLA)).toThrow(/not held/);
  });
});
