import { describe, expect, test } from 'vitest';
import { inletTube } from '../../../src/params/collector/inlet-tube.js';
import { flowStretches } from '../../../src/parts/collector/merge-flow.js';
import { collectorGeometry } from '../../../src/parts/collector/merge-geometry.js';
import { exhaustSystemOf } from '../../../src/parts/gas-path/exhaust-system-of.js';
import { circleArea, conesOf, coneVolume } from '../../../src/parts/gas-path/gas-way.js';
import { headerPath } from '../../../src/parts/gas-path/header-path.js';
import { auditOf } from '../../../src/parts/gas-path/path-audit.js';
import { routedStarter } from '../../support/starter.js';

describe.each(['inline-four', 'inline-four-421', 'inline-four-stepped', 'inline-six-turbo', 'single', 'v8-bank'])(
  'the gas path of %s',
  (name) => {
    const header = routedStarter(name);
    const system = headerPath(header, 'as routed');
    const exhaust = exhaustSystemOf(system);

    test('is whole: stations rise from end to end, every joint is fed and left once', () => {
      for (const way of system.ways) {
        expect(way.stations[0]!.at).toBe(0);
        expect(way.stations.at(-1)!.at).toBeCloseTo(way.length, 9);
        way.stations.forEach((s, i) => {
          if (i > 0) expect(s.at).toBeGreaterThanOrEqual(way.stations[i - 1]!.at - 1e-9);
          expect(s.area).toBeGreaterThan(100);
        });
        for (const b of way.bends) {
          expect(b.from).toBeGreaterThanOrEqual(0);
          expect(b.to).toBeLessThanOrEqual(way.length + 1e-9);
        }
      }
      system.joints.forEach((joint, j) => {
        expect(system.ways.filter((w) => 'joint' in w.from && w.from.joint === j)).toHaveLength(1);
        expect(system.ways.filter((w) => w.to !== 'end' && w.to.joint === j).length).toBeGreaterThan(1);
        expect(joint.volume).toBeGreaterThan(0);
      });
    });

    test('has one way from every port with all bends of its tube', () => {
      for (const p of header.primaries) {
        const way = system.ways.find((w) => 'cylinder' in w.from && w.from.cylinder === p.cylinder)!;
        const own = p.path.segments.filter((s) => s.kind === 'bend').length;
        expect(way.bends.length).toBe(own);
      }
    });

    test('a runner is port, routed length and what is apart of the merge', () => {
      const { plan } = header;
      for (const p of header.primaries) {
        const way = system.ways.find((w) => 'cylinder' in w.from && w.from.cylinder === p.cylinder)!;
        const port = plan.ports.find((x) => x.cylinder === p.cylinder)!.lengthInHead ?? 0;
        const end = way.stations.findIndex((s) => s.what === 'tube end');
        expect(way.stations[end]!.at).toBeCloseTo(port + p.length, 6);
      }
    });

    test('at equal lengths every tube has its target and nothing else changes', () => {
      const equal = headerPath(header, 'equal lengths');
      equal.ways.forEach((way, i) => {
        expect(way.length).toBeCloseTo(system.ways[i]!.length, 6);
        expect(way.stations.length).toBe(system.ways[i]!.stations.length);
      });
    });

    test('in SI units for the calculation', () => {
      expect(exhaust.pipes[0]!.length * 1000).toBeCloseTo(system.ways[0]!.length, 9);
      expect(exhaust.pipes[0]!.stations[0]!.area * 1e6).toBeCloseTo(system.ways[0]!.stations[0]!.area, 9);
    });
  },
);

describe('tubes that miss their target', () => {
  test('are stretched to it at equal lengths, port and collector as they are', () => {
    const header = routedStarter('inline-four');
    const longer = { ...header, primaries: header.primaries.map((p) => ({ ...p, target: p.target + 12 })) };
    const [was, is] = [headerPath(header, 'as routed'), headerPath(longer, 'equal lengths')];
    was.ways.forEach((way, i) => {
      expect(is.ways[i]!.length - way.length).toBeCloseTo('cylinder' in way.from ? 12 : 0, 6);
    });
  });
});

describe('the audit of a header', () => {
  const header = routedStarter('inline-four');
  const audit = auditOf(headerPath(header, 'as routed'));
  const { plan } = header;

  test('gas volume is that of bores, openings, ports and collector', () => {
    const bore = plan.tube.od - 2 * plan.tube.wall;
    const way = headerPath(header, 'as routed').ways[0]!;
    const inFlange = way.stations.filter((s) => s.what === 'flange' || s.what === 'outer face');
    expect(inFlange).toHaveLength(2);
    const port = 80 * way.stations[0]!.area;
    const flange = conesOf(inFlange).reduce((s, c) => s + coneVolume(c), 0);
    const tubes = header.primaries.reduce((s, p) => s + (p.length - plan.flange.thickness) * circleArea(bore), 0);
    const collector = collectorGeometry(plan.collectors[0]!, inletTube(plan, plan.collectors[0]!));
    const gas = flowStretches(collector).reduce((s, f) => s + f.volume, 0);
    // the collector's cone is followed by straight lines of diameter: within a thousandth of its closed form
    const { length, bore: inside } = plan.tuning.tailpipe!;
    const tail = length * circleArea(inside);
    expect(audit.volume / (tubes + 4 * (port + flange) + gas + tail)).toBeCloseTo(1, 3);
  });

  test('mass is that of the tubes and the collector', () => {
    const tubes = header.primaries.reduce((s, p) => s + (p.length - plan.flange.thickness), 0);
    const metal = Math.PI * (plan.tube.od - plan.tube.wall) * plan.tube.wall * tubes * 7900e-9;
    expect(audit.mass).toBeGreaterThan(metal);
    expect(audit.mass).toBeLessThan(metal * 1.5);
  });

  test('every pulse before the joint sees its own volume; without a turbine all is connected', () => {
    for (const c of audit.cylinders) {
      expect(c.runnerVolume).toBeLessThan(c.volume);
      expect(c.volume).toBeLessThan(c.connectedVolume);
      expect(c.connectedVolume).toBeCloseTo(audit.volume, 3);
      expect(c.tightest).toBeCloseTo((63.5 - 39.2 / 2) / 39.2, 9);
    }
    expect(audit.turbineInlets).toBeNull();
  });
});

describe('a divided turbine', () => {
  test('sees half of the header behind each inlet', () => {
    const header = routedStarter('inline-six-turbo');
    const plan = { ...header.plan, tuning: { ...header.plan.tuning, turbine: { area: 900, backPressure: 120_000 } } };
    const system = headerPath({ ...header, plan }, 'as routed');
    const audit = auditOf(system);
    expect(audit.turbineInlets).toBe(2);
    for (const c of audit.cylinders) {
      expect(c.connectedVolume / c.openVolume).toBeGreaterThan(0.4);
      expect(c.connectedVolume / c.openVolume).toBeLessThan(0.6);
    }
    const { end } = exhaustSystemOf(system);
    expect(end).toEqual({
      kind: 'turbine',
      areas: [expect.closeTo(450e-6, 12), expect.closeTo(450e-6, 12)],
      backPressure: 120_000,
    });
  });
});
