import { describe, expect, it } from 'vitest';
import { roughTerm } from '../../src/tuning/gas/duct.js';
import { AIR, BURNED, gammaOf, soundSpeed } from '../../src/tuning/gas/gas.js';
import { frictionFactor, viscosity } from '../../src/tuning/gas/wall-effects.js';
import { riemannAt, starState } from '../support/exact-riemann.js';
import { pipe, run, still } from '../support/gas-pipe.js';
import { closedSystem } from '../verification/closed-system.js';
import { LAX, LEFT_BLAST, SOD, shockTube, TWO_RAREFACTIONS } from '../verification/shock-tubes.js';
import { nozzle } from '../verification/steady-flow.js';

describe('the exact Riemann solution the scheme is held against', () => {
  it('gives the pressure and velocity printed by Toro', () => {
    const sod = starState(...SOD, 1.4);
    expect(sod.pressure).toBeCloseTo(0.30313, 5);
    expect(sod.velocity).toBeCloseTo(0.92745, 5);
    expect(sod.left).toBeCloseTo(0.42632, 5);
    expect(sod.right).toBeCloseTo(0.26557, 5);
    expect(starState(...TWO_RAREFACTIONS, 1.4).pressure).toBeCloseTo(0.00189, 5);
    expect(starState(...LEFT_BLAST, 1.4).pressure).toBeCloseTo(460.894, 3);
    expect(starState(...LEFT_BLAST, 1.4).velocity).toBeCloseTo(19.5975, 4);
  });

  it('gives Lax its values, and a wave between head and tail', () => {
    const lax = starState(...LAX, 1.4);
    expect([lax.pressure, lax.velocity, lax.left, lax.right].map((v) => v.toFixed(5))).toEqual([
      '2.46610',
      '1.52872',
      '0.34457',
      '1.30408',
    ]);
    expect(riemannAt(...SOD, 1.4, -1.1833)[0]).toBe(1);
    expect(riemannAt(...SOD, 1.4, -1.1831)[0]).toBeLessThan(1);
    expect(riemannAt(...SOD, 1.4, 1.7521)[0]).toBeCloseTo(0.265574, 6);
    expect(riemannAt(...SOD, 1.4, 1.7522)[0]).toBe(0.125);
  });
});

describe('what the verification table does not show', () => {
  it('keeps density above zero in the near vacuum between two rarefactions, and the middle at rest', () => {
    const { duct } = shockTube(TWO_RAREFACTIONS, 0.1, 400);
    expect(Math.abs(duct.velocity[200]!)).toBeLessThan(0.02);
    expect(Math.min(...duct.density)).toBeGreaterThan(0);
  });

  it('carries the same mass through every section of a nozzle that is faster than sound', () => {
    const { duct } = nozzle(0.3);
    const passes = (i: number): number => duct.fluxMass[i]! * duct.shape.faceArea[i]!;
    for (const i of [0, 60, 100, 140, 200]) expect(passes(i) / passes(100)).toBeCloseTo(1, 3);
  });
});

describe('laws', () => {
  it('has the friction of Haaland', () => {
    // Colebrook at Re 1e5 and roughness/diameter 1e-3 is 0.0221745; Haaland's own value 0.0219662 (both computed from the formulas)
    expect(frictionFactor(1e5, roughTerm(1e-3, 1))).toBeCloseTo(0.0219662, 7);
    expect(frictionFactor(5e4, roughTerm(2e-3, 1))).toBeCloseTo(0.0262832, 7);
    expect(frictionFactor(1e6, roughTerm(1e-4, 1))).toBeCloseTo(0.0133262, 7);
    expect(Math.abs(frictionFactor(1e5, roughTerm(1e-3, 1)) / 0.0221745 - 1)).toBeLessThan(0.02);
    expect(frictionFactor(1000, 0)).toBe(0.064);
  });

  it('has the viscosity of air within 2 %', () => {
    // neutrium.net, properties of air, uPa s
    for (const [t, table] of [
      [300, 18.5],
      [400, 22.9],
      [500, 26.8],
      [600, 30.3],
      [700, 33.5],
    ] as const) {
      expect(Math.abs((viscosity(t) * 1e6) / table - 1)).toBeLessThan(0.02);
    }
  });

  it('has the heats of air and of burned gas', () => {
    // NBS Circular 564 (1955)
    for (const [t, gamma] of [
      [300, 1.4],
      [400, 1.395],
      [500, 1.387],
      [600, 1.376],
      [700, 1.364],
      [800, 1.354],
      [900, 1.344],
      [1000, 1.336],
      [1200, 1.324],
      [1500, 1.309],
    ] as const) {
      expect(Math.abs(gammaOf(AIR, t) - gamma)).toBeLessThan(0.006);
      expect(Math.abs(soundSpeed(AIR, t) / Math.sqrt(gamma * 287.055 * t) - 1)).toBeLessThan(0.0022);
    }
    // computed from the species of burned stoichiometric octane
    for (const [t, gamma, a] of [
      [600, 1.335, 482.5],
      [800, 1.312, 552.3],
      [1000, 1.294, 613.2],
      [1200, 1.28, 668.3],
    ] as const) {
      expect(gammaOf(BURNED, t)).toBeCloseTo(gamma, 3);
      expect(soundSpeed(BURNED, t)).toBeCloseTo(a, 0);
    }
  });
});

describe('a closed system', () => {
  it('moves: the table shows that it keeps mass, energy and burned gas while gas rushes through it', () => {
    expect(closedSystem().fastest).toBeGreaterThan(20);
  });

  it('stays at rest in a cone, where the walls push as hard as the gas', () => {
    const network = pipe({ length: 0.5, cells: 60, area: (x) => 1e-3 * (1 + 3 * x) ** 2 }, () => still(1e5, 300), [
      'closed',
      'closed',
    ]);
    run(network, 0.01);
    expect(Math.max(...network.ducts[0]!.velocity.map(Math.abs))).toBeLessThan(1e-9);
  });

  it('comes to the temperature of its walls', () => {
    const network = pipe(
      { length: 0.3, cells: 30, area: () => 1e-3, wall: () => 400 },
      (x) => ({ ...still(1e5, 900), velocity: 60 * Math.sin((Math.PI * x) / 0.3) }),
      ['closed', 'closed'],
    );
    run(network, 0.05, undefined, true);
    const { temperature } = network.ducts[0]!;
    expect(Math.max(...temperature)).toBeLessThan(895);
    expect(Math.min(...temperature)).toBeGreaterThan(400);
  });
});
