import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/geometry/angle.js';
import { firstNormal, lraFromPolygon, polygonFromLra } from '../../../src/geometry/path/lra.js';
import { distance, rotateAbout, sub, unit, type Vec3 } from '../../../src/geometry/vec3.js';
import type { MeasuredPiece, MeasuredTube } from '../../../src/params/as-built/as-built.js';
import { asBuiltReport, type SpreadFound } from '../../../src/parts/as-built/as-built-report.js';
import type { TubeToMeasure } from '../../../src/parts/as-built/built-tube.js';
import type { Mend } from '../../../src/parts/as-built/mend.js';
import { asPlanned, measurement, toMeasure } from '../../support/as-built-of.js';
import { routedStarter } from '../../support/starter.js';

const report = (plan: Parameters<typeof asBuiltReport>[0], tubes: readonly TubeToMeasure[], found: MeasuredTube[]) =>
  asBuiltReport(plan, tubes, { units: 'mm', plan: null, tubes: found });

describe.each(['inline-four', 'inline-four-421', 'inline-four-stepped'])('built tubes of starter plan %s', (name) => {
  const header = routedStarter(name);
  const tubes = toMeasure(header);
  const planned = tubes.map(asPlanned);

  it('built as planned have no spread, by every kind of measurement', () => {
    planned[0]!.forEach((_, way) => {
      const found = report(
        header.plan,
        tubes,
        planned.map((p) => p[way]!),
      );
      expect(found).toHaveLength(header.secondaries.length > 0 ? 2 : 1);
      for (const g of found) {
        expect(g.spread, g.tubes[0]!.measured.kind).toBeLessThan(1e-6);
        expect([g.verdict, g.aim, g.mends]).toEqual(['inside', null, []]);
        for (const t of g.tubes) {
          expect(Math.abs(t.length - t.tube.length)).toBeLessThan(1e-6);
          expect(t.deviations.filter((d) => d.effect > 1e-5)).toEqual([]);
        }
      }
    });
  });

  it('3 mm too much of one piece is found at that piece, and mended in it without moving the end', () => {
    for (const t of tubes) {
      const pieces = planned[tubes.indexOf(t)]!.flatMap((m) => (m.measured.kind === 'pieces' ? m.measured.pieces : []));
      for (const [i, own] of pieces.entries()) {
        const field = own.length !== null ? 'length' : own.before! > 0 ? 'before' : 'after';
        const off: MeasuredPiece[] = pieces.map((p, k) => (k === i ? { ...p, [field]: own[field]! + 3 } : p));
        const [worst, ...more] = report(header.plan, [t], [measurement(t, { kind: 'pieces', pieces: off })])[0]!
          .tubes[0]!.deviations;
        expect(worst).toMatchObject({ kind: 'length', piece: own.piece });
        expect(worst!.off).toBeCloseTo(3, 9);
        expect(more).toEqual([]);
        // beside a tube that is right, with room on the straight itself
        const group = report(header.plan, tubes, [
          measurement(t, { kind: 'pieces', pieces: off }),
          ...planned.filter((_, k) => tubes[k] !== t).map((p) => p[0]!),
        ]).find((g) => g.tubes.some((b) => b.tube.id === t.tube.id))!;
        if (own.length === null || own.length < 60 || group.tubes.length < 2) continue;
        const [mend] = group.mends;
        expect(mend!.built.tube.id).toBe(t.tube.id);
        expect(mend!.ways[0]!.changes.flatMap((c) => c.straight.pieces)).toContain(own.piece);
        expect(mend!.ways[0]!.changes).toHaveLength(1);
      }
    }
  });

  it('a turn that is 2 deg off is found at its joint, by measured points in any frame', () => {
    const t = tubes.find(({ tube }) => tube.polygon.clr.length >= 2)!;
    const { polygon } = t.tube;
    const lra = lraFromPolygon(polygon);
    const turned = lra.rows.map((r, i) => (i === 1 ? { ...r, rotation: r.rotation + radians(2) } : r));
    const first = unit(sub(polygon.points[1]!, polygon.points[0]!));
    const normal = rotateAbout(unit([first[1] - first[2], first[2] - first[0], first[0] - first[1]]), first, 1);
    const { points } = polygonFromLra({ ...lra, rows: turned }, { point: [5, -7, 11], direction: first, normal });
    const measured = measurement(t, { kind: 'points', by: 'intersection', points, clr: null });
    const [{ deviations }] = report(header.plan, [t], [measured])[0]!.tubes as [SpreadFound['tubes'][number]];
    expect(deviations.filter((d) => d.effect > 1e-5)).toHaveLength(1);
    expect(deviations[0]).toMatchObject({ kind: 'clocking', place: 'straight 2' });
    expect(deviations[0]!.off).toBeCloseTo(radians(2), 9);
    const joint = t.cuts.joints.find((j) => j.name === deviations[0]!.joint)!;
    const straightFrom = t.cuts.pieces.find((c) => c.endJoint === joint.name || c.startJoint === joint.name);
    expect(straightFrom).toBeDefined();
  });

  it('the mend told brings any tubes within tolerance, and moves their ends as far as it says', () => {
    const off = fc.array(fc.double({ min: -8, max: 8, noNaN: true }), {
      minLength: tubes.length,
      maxLength: tubes.length,
    });
    fc.assert(
      fc.property(off, fc.constantFrom(0, 0.1, 0.5), (by, uncertainty) => {
        const lengths = tubes.map((t, i) => t.tube.length + by[i]!);
        const all = (values: readonly number[]): SpreadFound[] =>
          report(
            header.plan,
            tubes,
            tubes.map((t, i) => measurement(t, { kind: 'length', length: values[i]! }, { uncertainty })),
          );
        const before = all(lengths);
        const mends = before.flatMap((g) => g.mends);
        for (const mend of mends) {
          expect(mend.ways.length).toBeGreaterThan(0);
          for (const { changes, shift } of mend.ways) {
            expect(Math.abs(changes.reduce((sum, c) => sum + c.by, 0) - mend.by)).toBeLessThan(0.05);
            expect(distance(endAfter(mend.built, changes), shift)).toBeLessThan(0.05);
            for (const c of changes)
              expect(c.straight.to - c.straight.from + c.by).toBeGreaterThan(c.straight.least - 1e-6);
          }
        }
        const after = all(
          tubes.map(
            (t, i) => lengths[i]! + mends.filter((m) => m.built.tube.id === t.tube.id).reduce((s, m) => s + m.by, 0),
          ),
        );
        for (const g of after) {
          expect(g.spread).toBeLessThanOrEqual(g.tolerance + 1e-9);
          expect(g.mends).toEqual([]);
          // what was within tolerance as measured, if not for sure, is left alone
          const was = before.find((b) => b.of === g.of)!;
          expect(g.verdict).toBe(was.aim === null ? was.verdict : 'inside');
        }
      }),
      { numRuns: 40 },
    );
  });
});

/** How far the end of a tube moves when its straights are changed, by bending it anew from its table of lengths, turns and angles. */
function endAfter({ tube }: Pick<TubeToMeasure, 'tube'>, changes: Mend['ways'][number]['changes']): Vec3 {
  const { points } = tube.polygon;
  const lra = lraFromPolygon(tube.polygon);
  // the halves of a U-bend have no straight between them
  const real = lra.rows.map((r, i) => i === 0 || r.straight > 1e-6);
  const longer = (i: number): number => {
    if (real[i] === false) return 0;
    const index = real.slice(0, i).filter((r) => r).length;
    return changes.filter((c) => c.straight.index === index).reduce((sum, c) => sum + c.by, 0);
  };
  const rows = lra.rows.map((r, i) => ({ ...r, straight: r.straight + longer(i) }));
  const direction = unit(sub(points[1]!, points[0]!));
  const start = { point: points[0]!, direction, normal: firstNormal(points) };
  const bent = polygonFromLra({ rows, lastStraight: lra.lastStraight + longer(rows.length) }, start);
  return sub(bent.points.at(-1)!, points.at(-1)!);
}

describe('what can be told', () => {
  const header = routedStarter('inline-four');
  const tubes = toMeasure(header);
  const lengths = (off: readonly number[], uncertainty: number | null = 0): MeasuredTube[] =>
    off.map((by, i) => measurement(tubes[i]!, { kind: 'length', length: 760 + by }, { uncertainty }));
  const verdict = (found: MeasuredTube[]): SpreadFound => report(header.plan, tubes, found)[0]!;

  it('depends on what the measurements may be off by', () => {
    expect(verdict(lengths([0, 0, 0, 0.9]))).toMatchObject({ verdict: 'inside', uncertainty: 0 });
    expect(verdict(lengths([0, 0, 0, 0.9], 0.3)).verdict).toBe('cannot tell');
    expect(verdict(lengths([0, 0, 0, 1.3], 0.3)).verdict).toBe('cannot tell');
    expect(verdict(lengths([0, 0, 0, 1.5], 0.3)).verdict).toBe('outside');
    expect(verdict(lengths([0, 0, 0, 1.5], 0.3)).uncertainty).toBeCloseTo(Math.hypot(0.3, 0.3), 12);
    expect(verdict(lengths([0, 0, 0, 0], null)).uncertainty).toBeCloseTo(Math.hypot(0.5, 0.5), 12);
  });

  it('is nothing sure while a tube is not measured, but too much is too much', () => {
    expect(verdict(lengths([0, 0, 0]))).toMatchObject({ verdict: 'cannot tell', unmeasured: ['cylinder 4'] });
    expect(verdict(lengths([0, 3, 0]))).toMatchObject({ verdict: 'outside', unmeasured: ['cylinder 4'] });
  });

  it('asks for no cutting below what can be measured', () => {
    expect(verdict(lengths([0, 0.3, 0, 0.9], 0.5))).toMatchObject({ verdict: 'cannot tell', aim: null, mends: [] });
  });
});
