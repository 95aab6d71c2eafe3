import { describe, expect, it } from 'vitest';
import { endOf, pathLength, startOf } from '../../src/geometry/path.js';
import { distance, dot } from '../../src/geometry/vec3.js';
import { cutListOf } from '../../src/parts/cut-list.js';
import { piecesOf, tubeStart } from '../../src/parts/pieces.js';
import type { RoutedPrimary } from '../../src/routing/routed.js';
import { routedStarter } from '../support/starter.js';

const header = routedStarter('inline-four');

const withLeg = (leg: number) => ({
  ...header.plan,
  tube: { ...header.plan.tube, bends: header.plan.tube.bends.map((b) => ({ ...b, leg })) },
});

describe.each([0, 30, 60, 1000])('pieces from bends with legs of %i mm', (leg) => {
  const plan = withLeg(leg);
  const each = (test: (p: RoutedPrimary) => void): void => header.primaries.forEach(test);

  it('join end to end from the flange face to the inlet and sum to the length', () =>
    each((primary) => {
      const pieces = piecesOf(plan, primary);
      expect(pieces[0]!.fromRun).toBe(tubeStart(plan, primary));
      expect(pieces.at(-1)!.toRun).toBe(primary.length);
      const sum = pieces.reduce((s, p) => s + pathLength(p.path), pieces[0]!.fromRun);
      expect(Math.abs(sum - primary.length)).toBeLessThan(1e-9);
      for (let i = 1; i < pieces.length; i++) {
        expect(distance(endOf(pieces[i - 1]!.path).point, startOf(pieces[i]!.path).point)).toBeLessThan(1e-9);
        expect(pieces[i]!.startNormal).toEqual(pieces[i - 1]!.endNormal);
      }
    }));

  it('carry their clocking square to the tube at every joint', () =>
    each((primary) => {
      for (const p of piecesOf(plan, primary)) {
        expect(Math.abs(dot(p.startNormal, startOf(p.path).direction))).toBeLessThan(1e-9);
        expect(Math.abs(dot(p.endNormal, endOf(p.path).direction))).toBeLessThan(1e-9);
      }
    }));

  it('hold one bend at most, and no straight beyond the legs beside it', () =>
    each((primary) => {
      for (const p of piecesOf(plan, primary)) {
        expect(p.path.segments.filter((s) => s.kind === 'bend').length).toBeLessThanOrEqual(1);
        if (p.kind !== 'bend') continue;
        for (const s of p.path.segments) if (s.kind === 'straight') expect(s.length).toBeLessThanOrEqual(leg + 1e-9);
      }
    }));
});

describe('pieces', () => {
  it('are fewer when the stock brings legs', () => {
    const count = (leg: number): number => header.primaries.flatMap((p) => piecesOf(withLeg(leg), p)).length;
    expect(count(1000)).toBeLessThan(count(60));
    expect(count(60)).toBeLessThanOrEqual(count(0));
    const bends = header.primaries.reduce((s, p) => s + p.polygon.clr.length, 0);
    expect(count(1000)).toBe(bends);
  });
});

describe('the cut list', () => {
  it('gives arcs as (R - OD / 2), R and (R + OD / 2) times the angle', () => {
    const od = header.plan.tube.od;
    const bends = cutListOf(header.plan, header.primaries).filter((c) => c.angle !== null);
    expect(bends.length).toBeGreaterThan(0);
    for (const c of bends) {
      expect(c.insideArc).toBeCloseTo((c.clr! - od / 2) * c.angle!, 9);
      expect(c.outsideArc).toBeCloseTo((c.clr! + od / 2) * c.angle!, 9);
      expect(c.legBefore + c.centreArc! + c.legAfter).toBeCloseTo(c.length, 9);
    }
  });
});
