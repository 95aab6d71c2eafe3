import { describe, expect, it } from 'vitest';
import { exhaustNetwork } from '../../../src/tuning/engine/exhaust-network.js';
import { optionsOf } from '../../../src/tuning/engine/options.js';
import { areaAt, pipeDuct } from '../../../src/tuning/engine/pipe-duct.js';
import type { ExhaustSystem } from '../../../src/tuning/exhaust-system.js';
import { fourIntoOne, lonePipe, roundPipe } from '../../support/simple-exhaust.js';

const OPTIONS = optionsOf();
const FOUR = fourIntoOne([0.7, 0.7, 0.7, 0.7]);
const PIPE = roundPipe('cylinder 1', { cylinder: 1 }, 'end', 0.8, 0.04);

describe('a pipe in cells', () => {
  it('keeps its length and volume, and gets whole cells of about the length wanted', () => {
    const { dx, volume } = pipeDuct(PIPE, 0.015, 750);
    expect(dx * volume.length).toBeCloseTo(0.8, 12);
    expect(Math.abs(dx - 0.015)).toBeLessThan(0.001);
    expect(volume.reduce((a, b) => a + b)).toBeCloseTo(0.8 * PIPE.stations[0]!.area, 12);
  });

  it('has straight lines of diameter between stations, and steps where two meet', () => {
    const area = (d: number): number => (Math.PI / 4) * d ** 2;
    const grown = {
      ...PIPE,
      stations: [
        { at: 0, area: area(0.04) },
        { at: 0.4, area: area(0.04) },
        { at: 0.4, area: area(0.044) },
        { at: 0.8, area: area(0.06) },
      ],
    };
    const diameter = (x: number): number => Math.sqrt((4 * areaAt(grown, x)) / Math.PI);
    expect(diameter(0.2)).toBeCloseTo(0.04, 12);
    expect(diameter(0.399999)).toBeCloseTo(0.04, 9);
    expect(diameter(0.400001)).toBeCloseTo(0.044, 6);
    expect(diameter(0.6)).toBeCloseTo(0.052, 12);
    expect(diameter(0.8)).toBeCloseTo(0.06, 12);
  });

  it.each([
    [0.1, 0.3],
    [0.101, 0.104],
    [0.2, 0.2],
  ])('has the whole loss of a bend from %d to %d m, shorter than a cell or longer', (from, to) => {
    const { bendLoss, dx } = pipeDuct({ ...PIPE, bends: [{ from, to, loss: 0.3 }] }, 0.015, 750);
    expect(bendLoss.reduce((a, b) => a + b) * dx).toBeCloseTo(0.3, 9);
  });
});

describe('an exhaust as a network', () => {
  it('has a duct for every pipe, a volume for every joint and cylinder, and is lengthened by its end correction', () => {
    const { network, valves, outlets, notes } = exhaustNetwork(FOUR, 5e-4, OPTIONS);
    expect(network.ducts.length).toBe(5);
    expect(network.volumes.length).toBe(5);
    expect(network.ends.length).toBe(10);
    expect(valves.map((v) => v.cylinder)).toEqual([1, 2, 3, 4]);
    expect(outlets.map((o) => o.pipe)).toEqual(['tail']);
    expect(notes).toEqual([]);
    const tail = network.ducts[4]!;
    expect(tail.shape.dx * tail.mass.length).toBeCloseTo(0.6 + 0.6133 * 0.03, 12);
  });

  it('gives a joint that is too small for its cells the least that they resolve, and says so', () => {
    const { network, notes } = exhaustNetwork(
      { ...FOUR, joints: [{ name: 'collector', volume: 1e-6 }] },
      5e-4,
      OPTIONS,
    );
    const mouths = 4 * (Math.PI / 4) * 0.041 ** 2 + (Math.PI / 4) * 0.06 ** 2;
    expect(network.volumes[0]!.volume / (mouths * OPTIONS.cellLength)).toBeCloseTo(1, 1);
    expect(notes[0]).toContain('collector: calculated with');
  });

  const turbine = (...areas: number[]): ExhaustSystem['end'] => ({ kind: 'turbine', areas, backPressure: 1.2e5 });
  const change = (i: number, to: object): ExhaustSystem => ({
    ...FOUR,
    pipes: FOUR.pipes.map((p, k) => (k === i ? { ...p, ...to } : p)),
  });

  it.each<[string, ExhaustSystem, string]>([
    ['no cylinder', { ...FOUR, pipes: [FOUR.pipes[4]!] }, 'no pipe begins at a cylinder'],
    [
      'two pipes from one cylinder',
      change(1, { from: { cylinder: 1 } }),
      'cylinders 1, 1, 3, 4: expected one pipe from each',
    ],
    ['a joint that is not there', change(1, { to: { joint: 3 } }), 'cylinder 2: joint 3 is not among the 1 joints'],
    ['no way out', { ...FOUR, pipes: FOUR.pipes.slice(0, 4) }, 'collector: no pipe leads out of it'],
    [
      'nothing that leads in',
      { ...lonePipe(1), joints: [{ name: 'pot', volume: 1e-3 }] },
      'pot: no pipe leads into it',
    ],
    ['a turbine of two inlets for one pipe', { ...FOUR, end: turbine(5e-4, 5e-4) }, 'found 2 areas; expected 1'],
    [
      'a turbine wider than its pipe',
      { ...FOUR, end: turbine(1) },
      'effective area of the turbine over that of the pipe',
    ],
    ['a length in mm', change(0, { length: 700 }), 'cylinder 1: length: found 700 m; expected 0.001 to 20 m'],
    ['an area in mm2', change(0, { stations: [{ at: 0, area: 1320 }] }), 'cylinder 1: area at 0 m: found 1320 m2'],
    [
      'stations that fall back',
      change(0, { stations: [FOUR.pipes[0]!.stations[1]!, FOUR.pipes[0]!.stations[0]!] }),
      'place of station 2',
    ],
    ['a bend beyond the end', change(0, { bends: [{ from: 0.6, to: 0.9, loss: 0.2 }] }), 'end of a bend: found 0.9 m'],
    ['roughness in mm', change(0, { roughness: 0.05 }), 'roughness'],
    ['a wall that heats twice', change(0, { heatShare: 2 }), 'part of the heat loss: found 2; expected 0 to 1'],
  ])('is refused with what is wrong: %s', (_, system, message) => {
    expect(() => exhaustNetwork(system, 5e-4, OPTIONS)).toThrow(message);
  });
});
