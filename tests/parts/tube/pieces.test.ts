import { describe, expect, it } from 'vitest';
import { pathFromPolygon } from '../../../src/geometry/path/control-polygon.js';
import { endOf, pathLength, startOf } from '../../../src/geometry/path/path.js';
import { distance, dot } from '../../../src/geometry/vec3.js';
import { piecesOf, tubeStart } from '../../../src/parts/tube/pieces.js';
import { cutsOf } from '../../../src/parts/tube/tube-cuts.js';
import type { RoutedPrimary, RoutedTube } from '../../../src/routing/routed.js';
import { routedStarter } from '../../support/starter.js';
import { steppedPair } from '../../support/stepped-pair.js';

const header = routedStarter('inline-four');

const withLeg = (leg: number) => ({
  ...header.plan,
  tube: { ...header.plan.tube, bends: header.plan.tube.bends.map((b) => ({ ...b, leg, shortLeg: leg })) },
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
    // no bend here is the whole of its stock, so that each keeps one straight of all there are, one more than bends
    const bends = header.primaries.flatMap((p) => p.path.segments.filter((s) => s.kind === 'bend')).length;
    expect(count(1000)).toBe(bends + header.primaries.length);
  });
});

describe('pieces of tubes that grow', () => {
  const { plan, primaries } = steppedPair();
  const step = primaries[0]!.sections[1]!.from;

  it('have a joint at the step, each its own size, and sum to the length', () => {
    for (const primary of primaries) {
      const at = primary.sections[1]!.from;
      const pieces = piecesOf(plan, primary);
      expect(pieces.some((p) => p.toRun === at)).toBe(true);
      for (const p of pieces) {
        expect([p.od, p.wall]).toEqual(p.toRun <= at ? [42.4, 2] : [45, 1.5]);
        expect(p.toRun - p.fromRun).toBeCloseTo(pathLength(p.path), 9);
      }
    }
  });

  it('keep a straight on the leg of a bend of its own size, never beyond the step', () => {
    const legs = (own: number, grown: number): string[] => {
      const tube = {
        ...plan.tube,
        bends: plan.tube.bends.map((b) => ({ ...b, leg: own })),
        steps: plan.tube.steps.map((s) => ({ ...s, bends: s.bends.map((b) => ({ ...b, leg: grown })) })),
      };
      return piecesOf({ ...plan, tube }, primaries[0]!).map((p) => p.kind);
    };
    // straight, bend, straight up to the step, straight from it, bend, straight; a bend keeps one: it is not the whole of its stock
    expect(legs(0, 0)).toEqual(['straight', 'bend', 'straight', 'straight', 'bend', 'straight']);
    expect(legs(1000, 0)).toEqual(['bend', 'straight', 'straight', 'bend', 'straight']);
    expect(legs(0, 1000)).toEqual(['straight', 'bend', 'straight', 'straight', 'bend']);
    expect(legs(1000, 1000)).toEqual(['bend', 'straight', 'straight', 'bend']);
  });

  it('take a step right where a bend ends for its joint', () => {
    const primary = primaries[0]!;
    const at = primary.path.segments
      .slice(0, 2)
      .reduce((sum, s) => sum + (s.kind === 'bend' ? s.clr * s.angle : s.length), 0);
    const moved = { ...primary, sections: [primary.sections[0]!, { ...primary.sections[1]!, from: at }] };
    const pieces = piecesOf(plan, moved);
    expect(pieces.map((p) => p.kind)).toEqual(['straight', 'bend', 'straight', 'bend', 'straight']);
    expect(pieces.map((p) => p.od)).toEqual([42.4, 42.4, 45, 45, 45]);
    expect(step).toBeGreaterThan(at);
  });
});

describe('pieces of a secondary', () => {
  const { plan, secondaries } = steppedPair();
  const pieces = piecesOf(plan, secondaries[0]!);

  it('start at the outlet, carry its size and the name of the collector they come from', () => {
    expect(pieces[0]!.fromRun).toBe(0);
    expect(pieces.map((p) => p.name)).toEqual(['Y merge-A', 'Y merge-B', 'Y merge-C']);
    expect(pieces.map((p) => p.file)).toEqual(['y-merge-a', 'y-merge-b', 'y-merge-c']);
    expect(new Set(pieces.map((p) => p.cylinder))).toEqual(new Set([null]));
    expect(new Set(pieces.map((p) => p.od))).toEqual(new Set([48.3]));
    expect(pieces.at(-1)!.toRun).toBe(secondaries[0]!.length);
  });

  it('have files of their own where names look the same or have no Latin letter', () => {
    for (const [a, b] of [
      ['Left bank', 'left-bank'],
      ['αβγ', '左'],
    ] as const) {
      const [merge, last] = plan.collectors;
      const collectors = [
        { ...merge!, name: a },
        { ...merge!, name: b },
        { ...last!, from: [a, b] },
      ];
      const files = [a, b].map(
        (id, from) => piecesOf({ ...plan, collectors }, { ...secondaries[0]!, id, from } as RoutedTube)[0]!.file,
      );
      expect(new Set(files).size).toBe(2);
      for (const f of files) expect(f).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
    }
  });
});

describe('a U-bend', () => {
  it('is one piece, whose arcs are half circles', () => {
    const { plan, primaries } = steppedPair();
    const clr = 63.5;
    const polygon = {
      points: [
        [0, 0, 0],
        [0, 0, 200],
        [2 * clr, 0, 200],
        [2 * clr, 0, 20],
      ] as const,
      clr: [clr, clr],
    };
    const path = pathFromPolygon(polygon);
    const tube = { ...primaries[0]!, polygon, path, length: pathLength(path), sections: [primaries[0]!.sections[0]!] };
    const bent = [tube].flatMap((t) => cutsOf(plan, t).pieces).filter((c) => c.angle !== null);
    expect(bent).toHaveLength(1);
    expect(bent[0]!.angle).toBeCloseTo(Math.PI, 9);
    expect(bent[0]!.centreArc).toBeCloseTo(Math.PI * clr, 6);
    expect(bent[0]!.insideArc).toBeCloseTo(Math.PI * (clr - 21.2), 6);
  });
});

describe('the cut list', () => {
  it('gives arcs as (R - OD / 2), R and (R + OD / 2) times the angle', () => {
    const od = header.plan.tube.od;
    const bends = header.primaries.flatMap((t) => cutsOf(header.plan, t).pieces).filter((c) => c.angle !== null);
    expect(bends.length).toBeGreaterThan(0);
    for (const c of bends) {
      expect(c.insideArc).toBeCloseTo((c.clr! - od / 2) * c.angle!, 9);
      expect(c.outsideArc).toBeCloseTo((c.clr! + od / 2) * c.angle!, 9);
      expect(c.legBefore + c.centreArc! + c.legAfter).toBeCloseTo(c.length, 9);
    }
  });

  it('gives each piece the size it is cut from', () => {
    const { plan, primaries, secondaries } = steppedPair();
    const list = [...primaries, ...secondaries].flatMap((t) => cutsOf(plan, t).pieces);
    expect(new Set(list.map((c) => `${c.od} x ${c.wall}`))).toEqual(new Set(['42.4 x 2', '45 x 1.5', '48.3 x 1.5']));
    for (const c of list.filter((c) => c.clockingRound !== null)) {
      expect(c.clockingRound).toBeCloseTo((c.clocking! * c.od) / 2, 12);
    }
  });
});
