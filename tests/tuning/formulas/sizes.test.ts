import { describe, expect, test } from 'vitest';
import { boreForSpeed, meanGasSpeed, SPEED_BORES } from '../../../src/tuning/formulas/gas-speed.js';
import { collectorLengths, JOINED_PIPE, PAIRS_JOIN, PORT_BORE } from '../../../src/tuning/formulas/joined-pipes.js';
import { nearestTubes } from '../../../src/tuning/formulas/nearest-tube.js';
import { spreadOf } from '../../../src/tuning/formulas/rule.js';
import { areaReflection, proposedSteps } from '../../../src/tuning/formulas/steps.js';
import { returnBand } from '../../../src/tuning/formulas/wave-return.js';
import { inputsOf } from './tuning-inputs-of.js';

const t = inputsOf();

describe('gas speed by continuity', () => {
  test('is what the swept volume a revolution asks of the section', () => {
    // volume a second: pi/4 B^2 S rpm / 60, twice because the exhaust stroke is half a revolution
    const swept = (Math.PI / 4) * 86 ** 2 * 86 * (6500 / 60) * 2;
    const speed = swept / ((Math.PI / 4) * 39.2 ** 2) / 1000;
    expect(meanGasSpeed(t, 39.2)).toBeCloseTo(speed, 6);
  });
  test('240 and 300 ft/s are the constants 86400 and 108000 of the builders (seen in their discussion)', () => {
    const inches = (x: number) => Math.sqrt((((6500 * 86) / 25.4) * (86 / 25.4) ** 2) / x);
    expect(SPEED_BORES.map((r) => r.value(t) / 25.4)).toEqual([
      expect.closeTo(inches(86_400), 9),
      expect.closeTo(inches(108_000), 9),
    ]);
  });
  test('a bore has the speed it was chosen for', () => {
    for (const speed of [50, 73, 91, 120]) expect(meanGasSpeed(t, boreForSpeed(t, speed))).toBeCloseTo(speed, 9);
  });
});

describe("by a reader's notes of Smith and Morrison", () => {
  test('pairs join within 18 in, run 24 in joined, bores are port and an eighth', () => {
    expect(PAIRS_JOIN.value(t)).toBeCloseTo(457.2, 9);
    expect(JOINED_PIPE.value(t)).toBeCloseTo(609.6, 9);
    const round = { ...t, portArea: (Math.PI / 4) * 38 ** 2 };
    expect(PORT_BORE.value(round)).toBeCloseTo(38 + 3.175, 9);
  });
  test('a collector holds 12 to 15 cylinders, 0.5 l each here', () => {
    const area = (Math.PI / 4) * 60 ** 2;
    expect(collectorLengths(60).map((r) => r.value(t) * area)).toEqual([
      expect.closeTo(6e6, 3),
      expect.closeTo(7.5e6, 3),
    ]);
  });
});

describe('steps', () => {
  test('part the length evenly and grow by an eighth of an inch', () => {
    const steps = proposedSteps(t, { od: 42.4, wall: 1.6 }, 750, 2);
    expect(steps.map((s) => s.at)).toEqual([250, 500]);
    expect(steps.map((s) => s.od)).toEqual([expect.closeTo(45.575, 9), expect.closeTo(48.75, 9)]);
    expect(steps[0]!.speedRatio).toBeCloseTo(830 / 330, 12);
  });
  test('a step up throws a rarefaction back, weaker than the open end; none from equal areas; a closed end all of it', () => {
    const [step] = proposedSteps(t, { od: 42.4, wall: 1.6 }, 750, 1);
    expect(step!.reflection).toBeLessThan(0);
    expect(step!.reflection).toBeGreaterThan(-1);
    expect(areaReflection(3, 3)).toBe(0);
    expect(areaReflection(3, 0)).toBe(1);
    expect(areaReflection(2, 1)).toBeCloseTo(1 / 3, 12);
  });
  test('longer tubes put the first rarefaction into the overlap at lower engine speed; no band without overlap', () => {
    const [short, long] = [returnBand(t, 800, 1)!, returnBand(t, 900, 1)!];
    expect(long.from).toBeLessThan(short.from);
    expect(short.from).toBeLessThan(short.to);
    expect(returnBand(t, 800, 2)!.from).toBeCloseTo(short.from / 3, 9);
    expect(returnBand(inputsOf({ overlap: -4 }), 800, 1)).toBeNull();
  });
});

describe('tables', () => {
  test('nearest tubes stand on either side of a bore', () => {
    const offer = [38, 42, 45].map((od) => ({ name: String(od), od, wall: 1.5 }));
    expect(nearestTubes(offer, 40)).toEqual({ below: offer[1], above: offer[2] });
    expect(nearestTubes(offer, 39)).toEqual({ below: offer[1], above: offer[1] });
    expect(nearestTubes(offer, 30).below).toBeNull();
    expect(nearestTubes(offer, 50).above).toBeNull();
  });
  test('a spread has the middle between the two middle ones', () => {
    expect(spreadOf([4, 1, 3, 2])).toEqual({ least: 1, median: 2.5, most: 4 });
    expect(spreadOf([5])).toEqual({ least: 5, median: 5, most: 5 });
    expect(() => spreadOf([])).toThrow(RangeError);
  });
});
