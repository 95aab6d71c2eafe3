import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/geometry/angle.js';
import { directionInto, pointFrom } from '../../../src/geometry/frame.js';
import { shellsOf } from '../../../src/geometry/mesh/measure.js';
import { asStlReaderSees, meshFaults } from '../../../src/geometry/mesh/validate.js';
import { difference, overlapVolume, placed, solidOf, trimmed, volumeOf } from '../../../src/geometry/solid/solid.js';
import { bar } from '../../../src/geometry/solid/solid-shapes.js';
import { along, distance } from '../../../src/geometry/vec3.js';
import type { CollectorPlan } from '../../../src/params/plan.js';
import { collectorOf } from '../../../src/parts/collector/collector.js';
import { ATTACHED_HALF_ANGLE, coneLengthFor, lengthForGrowth } from '../../../src/parts/collector/cone-growth.js';
import { collectorFacts } from '../../../src/parts/collector/facts.js';
import { areaProfile, flowStretches } from '../../../src/parts/collector/merge-flow.js';
import { collectorGeometry } from '../../../src/parts/collector/merge-geometry.js';
import { collectorGas, collectorSolid } from '../../../src/parts/collector/solid.js';
import { BED, mergePlan, SLIP, TUBE, VENTURI } from '../../support/merge-plan.js';

/** A branch in the middle of the tail. */
function branchOn(plan: CollectorPlan, clocking = 0.4): CollectorPlan['branch'] {
  const { totalLength, tail } = collectorGeometry({ ...plan, branch: null }, TUBE);
  return {
    od: 30,
    wall: 1.6,
    angle: radians(60),
    at: totalLength - tail / 2 - 18,
    clocking,
    length: 70,
    on: 'tail',
  };
}

describe('every form of a collector', () => {
  for (const inlets of [2, 3, 4, 5, 6]) {
    for (const centre of inlets < 3 ? (['open'] as const) : (['open', 'spike'] as const)) {
      for (const venturi of [false, true]) {
        const title = `${inlets} into 1, centre ${centre}, ${venturi ? 'venturi' : 'cone'}`;
        it(`${title}: one closed body with and without sleeves and branch`, () => {
          for (const [slip, branched] of [
            [null, false],
            [SLIP, false],
            [null, true],
            [SLIP, true],
          ] as const) {
            const bare = mergePlan(inlets, { centre, slip, ...(venturi ? { outlet: VENTURI } : {}) });
            const { part } = collectorOf({ ...bare, branch: branched ? branchOn(bare) : null }, TUBE, BED);
            expect(meshFaults(part.mesh, { bodies: 1 })).toEqual([]);
            expect(meshFaults(asStlReaderSees(part.mesh), { bodies: 1 })).toEqual([]);
            // a ball with k mouths joined inside has genus k - 1: a branch is one mouth more
            expect(shellsOf(part.mesh)[0]!.genus).toBe(inlets + (branched ? 1 : 0));
          }
        }, 60_000);
      }
    }
  }

  it('of random sizes is one closed body', () => {
    const sizes = fc.record({
      inlets: fc.integer({ min: 2, max: 6 }),
      half: fc.double({ min: 4, max: 22, noNaN: true }),
      gap: fc.double({ min: 8.5, max: 15, noNaN: true }),
      od: fc.double({ min: 30, max: 60, noNaN: true }),
      cone: fc.double({ min: 30, max: 160, noNaN: true }),
      spike: fc.boolean(),
      slip: fc.boolean(),
      throat: fc.option(fc.double({ min: 0.6, max: 1, noNaN: true }), { nil: null }),
    });
    fc.assert(
      fc.property(sizes, ({ inlets, half, gap, od, cone, spike, slip, throat }) => {
        const outletBore = 1.4 * od - 3.2;
        const plan = mergePlan(inlets, {
          mergeHalfAngle: radians(half),
          inletGap: gap,
          centre: spike && inlets > 2 ? 'spike' : 'open',
          slip: slip ? { overlap: 25, fit: 0.25 } : null,
          outlet: {
            od: 1.4 * od,
            wall: 1.6,
            coneLength: cone,
            tail: 40,
            throat: throat === null ? null : { bore: throat * outletBore, length: 5, diffuserLength: 50 },
          },
        });
        const c = collectorOf(plan, { od, wall: 1.6 }, BED);
        expect(meshFaults(c.part.mesh, { bodies: 1 })).toEqual([]);
        expect(c.mass).toBeGreaterThan(0);
      }),
      { numRuns: 15 },
    );
  }, 120_000);
});

describe('spike', () => {
  it('reaches from the inlet plane to where the outsides meet on the axis and has the volume of the star there', () => {
    for (const inlets of [3, 4, 6]) {
      const open = collectorGeometry(mergePlan(inlets, { inletGap: 2 }), TUBE);
      const { spike, ...rest } = collectorGeometry(mergePlan(inlets, { inletGap: 2, centre: 'spike' }), TUBE);
      // the same point as the spike distance of the cut, seen along the axis
      const { frame, spike: along_ } = open.cuts[0]!;
      const meet = along(along(frame.origin, frame.z, along_!), frame.x, -open.outside);
      expect(meet[2]).toBeCloseTo(spike!.length, 9);
      const filled = volumeOf(collectorSolid({ ...rest, spike }));
      const added = filled - volumeOf(collectorSolid(open));
      // chords of 0.05 mm make the tubes' meshes smaller, the star between them larger by up to that over its skin
      expect(added).toBeGreaterThan(spike!.volume);
      expect(added / spike!.volume).toBeLessThan(1.12);
    }
  });

  it('leaves the gas way alone, and is refused for two inlets', () => {
    const [a, b] = (['open', 'spike'] as const).map((centre) => collectorOf(mergePlan(4, { centre }), TUBE, BED));
    expect(b!.gasVolume).toBe(a!.gasVolume);
    expect(b!.mass).toBeGreaterThan(a!.mass);
    expect(() => collectorGeometry(mergePlan(2, { centre: 'spike' }), TUBE)).toThrow(/three inlets/);
  });
});

describe('way of the gas in numbers', () => {
  it('has the volumes of the meshes, part by part, to the chord error', () => {
    for (const inlets of [1, 2, 3, 4, 5, 6]) {
      const g = collectorGeometry(mergePlan(inlets, { outlet: VENTURI }), TUBE);
      const gas = collectorGas(g);
      for (const { part, from, to, volume } of flowStretches(g)) {
        // the merge's gas begins at the tilted ends of the tubes, as much before the inlet plane as behind it
        const low = part === 'merge' ? -50 : from;
        const slab = trimmed(trimmed(gas, { point: [0, 0, low], normal: [0, 0, 1] }), {
          point: [0, 0, to],
          normal: [0, 0, -1],
        });
        const missing = 1 - volumeOf(slab) / volume;
        expect(missing, `${inlets} ${part}`).toBeGreaterThan(-1e-5);
        // 0.05 mm of a radius of 19 mm is a quarter of a per cent, on average two thirds of that on both sides
        expect(missing, `${inlets} ${part}`).toBeLessThan(6e-3);
      }
    }
  });

  it('is a cylinder and frusta for one inlet: pi h / 3 (R2 + R r + r2)', () => {
    const g = collectorGeometry(mergePlan(1, { outlet: VENTURI }), TUBE);
    const frustum = (a: number, b: number, h: number) => (Math.PI * h * (a * a + a * b + b * b)) / 3;
    const volumes = Object.fromEntries(flowStretches(g).map((s) => [s.part, s.volume]));
    expect(volumes.cone).toBeCloseTo(frustum(19.2, 23, 60), 6);
    expect(volumes.throat).toBeCloseTo(Math.PI * 23 * 23 * 12, 6);
    expect(volumes.diffuser).toBeCloseTo(frustum(23, 29.75, 55), 6);
    expect(volumes.tail).toBeCloseTo(Math.PI * 29.75 ** 2 * 80, 6);
    expect(volumes.merge).toBeUndefined();
    expect(g.totalLength).toBe(60 + 12 + 55 + 80);
  });

  it('has a profile of sections that integrates to its volumes and starts and ends with its areas', () => {
    const g = collectorGeometry(mergePlan(4, { outlet: VENTURI }), TUBE);
    const rows = areaProfile(g, 0.5);
    for (const { part, volume } of flowStretches(g)) {
      const own = rows.filter((r) => r.part === part);
      const sum = own.slice(1).reduce((s, r, i) => s + ((r.area + own[i]!.area) / 2) * (r.z - own[i]!.z), 0);
      expect(sum / volume, part).toBeCloseTo(1, 4);
    }
    expect(rows[0]!.area).toBeCloseTo(g.area.inlets / Math.cos(radians(10)), 6);
    const atMergeEnd = rows.filter((r) => r.part === 'merge').at(-1)!;
    expect(atMergeEnd.area).toBeCloseTo(g.area.mergeEnd, 6);
    expect(rows.at(-1)!.area).toBeCloseTo(g.area.outlet, 9);
    expect(Math.min(...rows.map((r) => r.area))).toBeCloseTo(g.area.throat!, 9);
    for (let i = 1; i < rows.length; i++) expect(rows[i]!.z).toBeGreaterThanOrEqual(rows[i - 1]!.z);
  });

  it('tells half-angles and the length for growth of the area', () => {
    const g = collectorGeometry(mergePlan(1, { outlet: VENTURI }), TUBE);
    expect(Math.tan(g.throat!.diffuserHalfAngle)).toBeCloseTo((29.75 - 23) / 55, 12);
    expect(Math.tan(g.coneHalfAngle)).toBeCloseTo((23 - 19.2) / 60, 12);
    const l = coneLengthFor(19.2, 23, ATTACHED_HALF_ANGLE);
    expect(l * Math.tan(radians(7))).toBeCloseTo(3.8, 12);
    // over that length the area has grown by 1 %
    const one = lengthForGrowth(20, radians(7), 1.01);
    expect((20 + one * Math.tan(radians(7))) ** 2 / 400).toBeCloseTo(1.01, 12);
  });
});

describe('sleeves', () => {
  it('take the tubes of the plan with their gap and end on the collector', () => {
    const c = collectorOf(mergePlan(4, { slip: SLIP }), TUBE, BED);
    const solid = solidOf(c.part.mesh);
    for (const { frame } of c.geometry.cuts) {
      const into = (s: Parameters<typeof placed>[0]) => placed(placed(s, frame), c.plan.frame);
      const inWorld = placed(solid, c.part.pose);
      // a tube with nearly all of the gap, pushed home; and one larger than the sleeve
      expect(overlapVolume(inWorld, into(bar(TUBE.od / 2 + 0.2, -40, -0.01)))).toBeLessThan(0.5);
      expect(overlapVolume(inWorld, into(bar(TUBE.od / 2 + 0.5, -29, -1)))).toBeGreaterThan(500);
      // the shoulder its end stands on
      const shoulder = difference(bar(TUBE.od / 2 - 0.2, 0.1, 0.6), bar(TUBE.od / 2 - 1.5, -1, 2));
      expect(overlapVolume(inWorld, into(shoulder)) / volumeOf(shoulder)).toBeGreaterThan(0.98);
    }
    expect(c.notes.join()).toMatch(/springs or tabs/);
  });
});

describe('branch', () => {
  it('is open from the collector to its end, in the world where the facts say', () => {
    const bare = mergePlan(4);
    const c = collectorOf({ ...bare, branch: branchOn(bare) }, TUBE, BED);
    const { branch, area } = c.geometry;
    expect(overlapVolume(collectorSolid(c.geometry), placed(bar(5, 0, 80), branch!.frame))).toBe(0);
    const facts = Object.fromEntries(collectorFacts(c).map((f) => [f.label, f.value]));
    const end = pointFrom(c.plan.frame, branch!.end.origin);
    const told = [facts['branch end x']!, facts['branch end y']!, facts['branch end z']!] as const;
    expect(distance(told, end)).toBe(0);
    expect(facts['branch saddle angle']).toBeCloseTo(60, 9);
    expect(facts['branch area over all inlets']).toBeCloseTo((Math.PI * 13.4 ** 2) / area.inlets, 12);
    // out of the axis by length sin(angle), along it by length cos(angle)
    const [x, y, z] = directionInto(c.plan.frame, [
      end[0] - c.plan.frame.origin[0],
      end[1] - c.plan.frame.origin[1],
      end[2] - c.plan.frame.origin[2],
    ]);
    expect(Math.hypot(x, y)).toBeCloseTo(70 * Math.sin(radians(60)), 9);
    expect(z).toBeCloseTo(branch!.at + 35, 9);
    expect(c.gasVolume).toBeGreaterThan(collectorOf(bare, TUBE, BED).gasVolume);
  });

  it('leaves the cone as well', () => {
    const plan = mergePlan(3, {
      outlet: { od: 76.1, wall: 2, coneLength: 140, tail: 30, throat: null },
    });
    const { mergeLength } = collectorGeometry(plan, TUBE);
    for (const clocking of [0, 1, 2.7]) {
      const branch = {
        od: 30,
        wall: 1.6,
        angle: radians(70),
        at: mergeLength + 60,
        clocking,
        length: 75,
        on: 'cone',
      } as const;
      const { part } = collectorOf({ ...plan, branch }, TUBE, BED);
      expect(meshFaults(part.mesh, { bodies: 1 })).toEqual([]);
      expect(shellsOf(part.mesh)[0]!.genus).toBe(4);
    }
  });
});

describe('facts', () => {
  it('are finite, named once, and weigh the walls: volume times density', () => {
    const bare = mergePlan(5, { centre: 'spike', slip: SLIP, outlet: VENTURI });
    const c = collectorOf({ ...bare, branch: branchOn(bare) }, TUBE, BED, 'five', '304 stainless');
    const facts = collectorFacts(c);
    expect(new Set(facts.map((f) => f.label)).size).toBe(facts.length);
    for (const f of facts) expect(Number.isFinite(f.value), f.label).toBe(true);
    // EN 10088-1: 1.4301 has 7900 kg/m3
    expect(c.mass).toBeCloseTo(volumeOf(collectorSolid(c.geometry)) * 7900e-9, 9);
    const value = (label: string) => facts.find((f) => f.label === label)!.value;
    const parts = ['merge', 'cone', 'throat', 'diffuser', 'tail'].map((p) => value(`${p} volume`));
    expect(parts.reduce((a, b) => a + b)).toBeLessThan(value('gas volume'));
    expect(value('outlet over throat')).toBeCloseTo((59.5 / 46) ** 2, 9);
  });
});
