import { describe, expect, it } from 'vitest';
import { bendTable } from '../../../src/export/csv/bend-table.js';
import { cutListTable } from '../../../src/export/csv/cut-list.js';
import { jointsTable } from '../../../src/export/csv/joints.js';
import { tubeTotalsTable } from '../../../src/export/csv/tube-totals.js';
import { radians } from '../../../src/geometry/angle.js';
import { endOf } from '../../../src/geometry/path/path.js';
import { cross, distance, unit } from '../../../src/geometry/vec3.js';
import { STARTERS } from '../../../src/params/text/starter.js';
import { cutFrom } from '../../../src/parts/tube/bent-stock.js';
import { stockOf } from '../../../src/parts/tube/pieces.js';
import { cutsOf } from '../../../src/parts/tube/tube-cuts.js';
import type { RoutedPrimary, RoutedSecondary } from '../../../src/routing/routed.js';
import { csvRows } from '../../support/csv-rows.js';
import { routedStarter } from '../../support/starter.js';
import { walked } from '../../support/walk-pieces.js';

describe.each(STARTERS.map((s) => s.name))('tables of the tubes of starter plan %s', (name) => {
  const { plan, primaries, secondaries } = routedStarter(name);
  const tubes: readonly (RoutedPrimary | RoutedSecondary)[] = [...primaries, ...secondaries];
  const cuts = tubes.map((t) => cutsOf(plan, t));
  const pieces = csvRows(cutListTable(cuts).bytes);
  const joints = csvRows(jointsTable(cuts).bytes);
  const totals = csvRows(tubeTotalsTable(cuts).bytes);
  const ownOf = (rows: ReturnType<typeof csvRows>, id: string) =>
    rows.filter((r) => r.cylinder === id || r.secondary_from === id);

  it('pieces, joints and start sum to the length of every route', () => {
    tubes.forEach((tube, i) => {
      const [row] = ownOf(totals, tube.id);
      expect(Math.abs(Number(row!.total_mm) - tube.length)).toBeLessThan(1e-9);
      expect(Number(row!.start_mm) + Number(row!.pieces_mm) + Number(row!.allowances_mm)).toBeCloseTo(tube.length, 9);
      expect(Number(row!.difference_mm)).toBeCloseTo(tube.length - tube.target, 9);
      const sum = ownOf(pieces, tube.id).reduce((s, p) => s + Number(p.cut_length_mm), cuts[i]!.start);
      expect(Math.abs(sum - tube.length)).toBeLessThan(1e-9);
    });
  });

  it('walked from the text of the tables alone, every tube ends where its route ends', () => {
    for (const tube of tubes) {
      const [first, ...rest] = ownOf(joints, tube.id);
      const place = (r: (typeof joints)[number]) => [r.x_mm, r.y_mm, r.z_mm].map(Number) as [number, number, number];
      const way = [first!.direction_x, first!.direction_y, first!.direction_z].map(Number) as [number, number, number];
      const port = plan.ports.find((p) => String(p.cylinder) === tube.id);
      const line = port ? plan.heads[port.head]!.frame.y : plan.collectors[(tube as RoutedSecondary).from]!.frame.x;
      const read = ownOf(pieces, tube.id).map((p) => ({
        legBefore: Number(p.cut_leg_before_mm),
        angle: p.bend_deg === '' ? null : radians(Number(p.bend_deg)),
        clr: p.clr_mm === '' ? null : Number(p.clr_mm),
        legAfter: Number(p.cut_leg_after_mm),
        clocking: radians(Number(joints.find((j) => j.joint === p.start_joint)!.clocking_deg)),
      }));
      const found = walked({ point: place(first!), direction: way, up: unit(cross(cross(way, line), way)) }, read);
      const end = endOf(tube.path);
      expect(distance(found.point, end.point)).toBeLessThan(1e-6);
      expect(distance(found.direction, end.direction)).toBeLessThan(1e-9);
      expect(Math.abs(found.length + Number(first!.run_mm) - tube.length)).toBeLessThan(1e-9);
      expect(distance(place(rest.at(-1)!), end.point)).toBeLessThan(1e-9);
    }
  });

  it('every bend can be cut from one piece of the bent stock of its size', () => {
    tubes.forEach((tube, i) => {
      const stock = stockOf(plan, tube);
      for (const c of cuts[i]!.pieces) {
        if (c.angle === null) continue;
        const section = tube.sections.findIndex((s) => s.od === c.od);
        const bend = { clr: c.clr!, angle: c.angle, legBefore: c.cutLegBefore, legAfter: c.cutLegAfter };
        expect(
          stock[section]!.some((s) => cutFrom(bend, s)),
          c.piece.name,
        ).toBe(true);
      }
    });
  });

  it('both senses of a turn make one whole turn, and go once round the tube', () => {
    for (const j of joints) {
      if (j.kind === 'collector') {
        expect([j.clocking_deg, j.clocking_ccw_deg, j.piece_after]).toEqual(['', '', '']);
        continue;
      }
      const [cw, ccw] = [Number(j.clocking_deg), Number(j.clocking_ccw_deg)];
      const round = Number(j.round_od_mm) + Number(j.round_od_ccw_mm);
      const od = Number(pieces.find((p) => p.piece === j.piece_after)!.od_mm);
      expect([0, 360].some((turn) => Math.abs(cw + ccw - turn) < 1e-9)).toBe(true);
      expect(Math.min(cw, ccw)).toBeGreaterThanOrEqual(0);
      expect(round).toBeCloseTo(cw + ccw > 1 ? Math.PI * od : 0, 9);
    }
  });

  it('the bend table develops to the length of every primary', () => {
    const rows = csvRows(bendTable(primaries).bytes);
    for (const { cylinder, length } of primaries) {
      const own = rows.filter((r) => r.cylinder === String(cylinder));
      expect(Number(own[0]!.developed_to_here_mm)).toBe(0);
      expect(Math.abs(Number(own.at(-1)!.developed_to_here_mm) - length)).toBeLessThan(1e-9);
      for (let i = 1; i < own.length; i++) {
        const step = Number(own[i]!.developed_to_here_mm) - Number(own[i - 1]!.developed_to_here_mm);
        expect(step).toBeCloseTo(Number(own[i]!.straight_before_mm) + Number(own[i]!.arc_mm), 9);
      }
    }
  });
});
