import { describe, expect, it } from 'vitest';
import {
  chainCompliance,
  inverse,
  mostGive,
  principalGives,
  roundSection,
  together,
} from '../../src/geometry/compliance.js';
import { along, rotateAbout, unit, type Vec3 } from '../../src/geometry/vec3.js';

const PLA = { modulus: 2300, poisson: 0.35 };
const second = (r: number) => (Math.PI * r ** 4) / 4;
const barOf = (from: Vec3, to: Vec3, r: number) => ({ from, to, section: roundSection(r) });

describe('compliance of bars', () => {
  // Roark's Formulas for Stress and Strain, table of beams: end-loaded cantilever F l^3 / (3 E I)
  it.each([
    [300, 8],
    [120, 5],
  ])('a cantilever of %d mm and radius %d mm gives F l^3 / 3EI, whichever way it stands', (l, radius) => {
    for (const d of [[0, 0, 1], [0, 1, 0], unit([1, -2, 3])] as Vec3[]) {
      const [held, free]: Vec3[] = [[10, 20, 30], along([10, 20, 30], d, l)];
      const gives = mostGive(chainCompliance(free!, [barOf(free!, held!, radius)], PLA), 5);
      expect(gives).toBeCloseTo((5 * l ** 3) / (3 * PLA.modulus * second(radius)), 6);
    }
  });

  it('a bar held at both ends gives F l^3 / 192 EI in the middle, and parting a bar changes nothing', () => {
    const at = (x: number): Vec3 => [x, 0, 0];
    const left = chainCompliance(at(100), [barOf(at(100), at(50), 6), barOf(at(50), at(0), 6)], PLA);
    const right = chainCompliance(at(100), [barOf(at(100), at(130), 6), barOf(at(130), at(200), 6)], PLA);
    const both = inverse(together([inverse(left), inverse(right)]));
    expect(mostGive(both, 5)).toBeCloseTo((5 * 200 ** 3) / (192 * PLA.modulus * second(6)), 6);
  });

  it('a bent arm adds its twist: F (a^3 + b^3) / 3EI + F a^2 b / GJ across its plane', () => {
    const [a, b, r] = [60, 90, 5];
    const nodes: Vec3[] = [
      [b, a, 0],
      [b, 0, 0],
      [0, 0, 0],
    ];
    const shear = PLA.modulus / (2 * (1 + PLA.poisson));
    const across = (a ** 3 + b ** 3) / (3 * PLA.modulus * second(r)) + (a * a * b) / (shear * 2 * second(r));
    for (const turn of [0, 0.7]) {
      const [p, q, o] = nodes.map((n) => rotateAbout(n, unit([1, 1, 1]), turn)) as [Vec3, Vec3, Vec3];
      expect(mostGive(chainCompliance(p, [barOf(p, q, r), barOf(q, o, r)], PLA), 1)).toBeCloseTo(across, 6);
      // the arm's own part on a base that gives as the rest does
      const base = { at: q, compliance: chainCompliance(q, [barOf(q, o, r)], PLA) };
      expect(mostGive(chainCompliance(p, [barOf(p, q, r)], PLA, base), 1)).toBeCloseTo(across, 6);
    }
  });

  // portal frame with a rigid beam: sway F h^3 / (24 E I) for two fixed columns (Roark, as above: guided cantilever F l^3 / 12 E I each)
  it('two posts under a rigid beam sway by F h^3 / 24 EI', () => {
    const post = (x: number) => chainCompliance([0, 0, 300], [barOf([x, 0, 300], [x, 0, 0], 8)], PLA);
    const c = inverse(together([-5000, 5000].map((x) => inverse(post(x)))));
    expect(c[0]![0]! * 5).toBeCloseTo((5 * 300 ** 3) / (24 * PLA.modulus * second(8)), 3);
  });

  it('is the same whichever way one looks at it: force and move change places (Maxwell)', () => {
    const c = chainCompliance(
      [7, -3, 90],
      [barOf([0, 0, 80], [20, 30, 40], 6), barOf([20, 30, 40], [0, 0, 0], 9)],
      PLA,
    );
    for (const [i, row] of c.entries()) for (const [j, v] of row.entries()) expect(v).toBeCloseTo(c[j]![i]!, 12);
  });

  it('counts a skin alone, a full bar and what lies between', () => {
    const tube = roundSection(10, 2, 0);
    expect(tube.bend).toBeCloseTo(second(10) - second(8), 9);
    expect(roundSection(10, 2, 1)).toEqual(roundSection(10));
    expect(roundSection(10, 2, 0.5).bend).toBeCloseTo((tube.bend + second(10)) / 2, 9);
  });

  it('refuses what nothing holds', () => {
    expect(() => inverse(Array.from({ length: 6 }, () => new Array<number>(6).fill(0)))).toThrow(/nothing holds/);
  });
});

describe('the ways a held point gives', () => {
  it('of a cantilever: twice P L3 / 3 E I across it, and P L / E A along it', () => {
    const section = roundSection(5);
    const [length, load, modulus] = [100, 5, 2300];
    const axis = unit([1, 2, 2]);
    const bar = { from: along([0, 0, 0], axis, length), to: [0, 0, 0] as Vec3, section };
    const [a, b, c] = principalGives(chainCompliance(bar.from, [bar], { modulus, poisson: 0.35 }), load);
    const across = (load * length ** 3) / (3 * modulus * section.bend);
    expect(a!.give).toBeCloseTo(across, 6);
    expect(b!.give).toBeCloseTo(across, 6);
    expect(c!.give).toBeCloseTo((load * length) / (modulus * section.area), 8);
    expect(Math.abs(c!.direction.reduce((sum, v, i) => sum + v * axis[i]!, 0))).toBeCloseTo(1, 6);
  });

  it('of one stopped along its softest way: no more than the next, by the inverse of a support that is stiff along it', () => {
    const bars = [
      { from: [0, 0, 0] as Vec3, to: [0, 60, 0] as Vec3, section: roundSection(5) },
      { from: [0, 60, 0] as Vec3, to: [80, 60, 20] as Vec3, section: roundSection(4) },
    ];
    const free = chainCompliance([0, 0, 0], bars, { modulus: 2300, poisson: 0.35 });
    const [softest, next] = principalGives(free, 5);
    expect(softest!.give).toBeCloseTo(mostGive(free, 5), 8);
    const d = softest!.direction;
    const stop = Array.from({ length: 6 }, (_, i) =>
      Array.from({ length: 6 }, (_k, j) => (i < 3 && j < 3 ? 1e4 * d[i]! * d[j]! : 0)),
    );
    const stopped = inverse(together([inverse(free), stop]));
    expect(mostGive(stopped, 5)).toBeCloseTo(next!.give, 2);
  });
});
