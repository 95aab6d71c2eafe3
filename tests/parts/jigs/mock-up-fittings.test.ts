import { describe, expect, it } from 'vitest';
import { frameAlong, pointFrom } from '../../../src/geometry/frame.js';
import { meshBounds } from '../../../src/geometry/mesh/measure.js';
import { asStlReaderSees, meshFaults } from '../../../src/geometry/mesh/validate.js';
import { pathFromPolygon } from '../../../src/geometry/path/control-polygon.js';
import { endOf, headingAt, pathLength, startOf } from '../../../src/geometry/path/path.js';
import { minGap, overlapVolume, placed, type Solid, solidOf } from '../../../src/geometry/solid/solid.js';
import { bar } from '../../../src/geometry/solid/solid-shapes.js';
import { sweepRound } from '../../../src/geometry/sweep/sweep.js';
import { cross, scale, type Vec3 } from '../../../src/geometry/vec3.js';
import type { JigPlan } from '../../../src/params/plan.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { combsOf } from '../../../src/parts/jigs/comb.js';
import { mockUpOf } from '../../../src/parts/jigs/jigs.js';
import type { SolidPart } from '../../../src/parts/part.js';
import { placedMesh } from '../../../src/parts/printed-part.js';
import type { RoutedTube } from '../../../src/routing/routed.js';
import { markedJig } from '../../support/jig-fixture.js';
import { routedStarter } from '../../support/starter.js';
import { twin } from '../../support/twin.js';

/** Rounding of printed coordinates (0.00025 mm) over a joint's faces, mm3. */
const ROUNDING = 0.5;

function standing(parts: readonly SolidPart[]) {
  return parts.map((part) => {
    const mesh = placedMesh(part.mesh, part.pose);
    return { name: part.name, kind: part.kind, solid: solidOf(mesh), ...meshBounds(mesh) };
  });
}

function expectSoundAndApart(parts: readonly SolidPart[]): void {
  for (const part of parts) {
    expect(meshFaults(part.mesh, { bodies: 1 }), part.name).toEqual([]);
    expect(meshFaults(asStlReaderSees(part.mesh), { bodies: 1 }), part.name).toEqual([]);
  }
  const all = standing(parts);
  for (const [i, a] of all.entries()) {
    for (const b of all.slice(i + 1)) {
      if ([0, 1, 2].some((k) => a.low[k]! > b.high[k]! || b.low[k]! > a.high[k]!)) continue;
      expect(overlapVolume(a.solid, b.solid), `${a.name} and ${b.name}`).toBeLessThan(ROUNDING);
    }
  }
}

const STARTERS: [string, Partial<JigPlan>][] = [
  ['single', { joint: 'screw', tubeWall: 2.4, cord: 4 }],
  ['v-twin', { joint: 'press', foot: { bolts: null } }],
  ['traced-gasket', { tubeWall: 2, foot: { bolts: null } }],
];

describe.each(STARTERS)('mock-up of the starter %s with %o', (name, settings) => {
  const header = routedStarter(name);
  const plan = { ...header.plan, jig: markedJig({ ...settings, bed: header.plan.jig.bed }) };
  const { parts, holders } = mockUpOf({ ...header, plan });

  it('is of sound parts that share no space', () => expectSoundAndApart(parts), 60_000);

  it('registers its plugs in the ports: the fit all round, and no way to turn or fall through', () => {
    const all = standing(parts);
    for (const { cylinder } of header.primaries) {
      const plug = all.find((p) => p.name === `plug-${cylinder}`)!.solid;
      const head = plan.heads[plan.ports.find((p) => p.cylinder === cylinder)!.head]!.frame;
      for (const proof of all.filter((p) => p.kind === 'flange-proof')) {
        const moved = (by: number) =>
          placed(plug, {
            origin: head.z.map((v) => v * by) as unknown as Vec3,
            x: [1, 0, 0],
            y: [0, 1, 0],
            z: [0, 0, 1],
          });
        const lifted = minGap(moved(0.15), proof.solid, 1);
        expect(lifted).toBeGreaterThan(0.1);
      }
      const fallen = placed(plug, {
        origin: head.z.map((v) => -v) as unknown as Vec3,
        x: [1, 0, 0],
        y: [0, 1, 0],
        z: [0, 0, 1],
      });
      const caught = all
        .filter((p) => p.kind === 'flange-proof')
        .reduce((v, p) => v + overlapVolume(fallen, p.solid), 0);
      expect(caught).toBeGreaterThan(50);
    }
  });

  it('says how stiff its holders are, with the dummy tubes and without', () => {
    for (const { deflection, alone, tubes, struts } of holders) {
      expect(deflection).toBeGreaterThan(0);
      expect(struts).toBeGreaterThan(0);
      // whatever holds it too makes it stiffer
      if (tubes > 0) expect(deflection).toBeLessThan(alone);
      else expect(deflection).toBe(alone);
    }
    expect(holders.length).toBeGreaterThan(0);
  });

  const { cord } = settings;
  if (cord) {
    it('lets a cord through from under the plugs, along every tube and out of the base of the holder', () => {
      const all = standing(parts);
      for (const { path } of header.primaries) {
        const [start, end] = [startOf(path), endOf(path)];
        const out = (from: Vec3, to: Vec3, by: number) => placed(bar(cord / 2, 0, by), frameAlong(from, to));
        const ways = [
          // straight keys reach into bends: there the line of the bend leaves the middle of the way
          solidOf(sweepRound(path, cord / 2 - plan.jig.keyLength ** 2 / 2 / header.plan.tube.bends[0]!.clr)),
          out(start.point, scale(start.direction, -1), 30),
          out(end.point, end.direction, 120),
        ];
        for (const part of all)
          for (const way of ways) expect(overlapVolume(part.solid, way), part.name).toBeLessThan(ROUNDING);
      }
    });
  }

  if (settings.foot) {
    it('carries first pieces from below at their angle: a foot at the flange, its shell round the tube', () => {
      const feet = standing(parts).filter((p) => p.kind === 'tube-foot');
      expect(feet.length).toBeGreaterThan(0);
      for (const foot of feet) {
        const primary = header.primaries.find((p) => foot.name === `tube-foot-${p.cylinder}`)!;
        const own = solidOf(sweepRound(primary.path, primary.sections[0]!.od / 2));
        expect(minGap(foot.solid, own, 3)).toBeLessThan(plan.jig.fit + 1.05);
        expect(overlapVolume(foot.solid, own)).toBe(0);
        for (const other of [...header.primaries, ...header.secondaries].filter((p) => p !== primary)) {
          expect(minGap(foot.solid, solidOf(sweepRound(other.path, other.sections[0]!.od / 2)), 3)).toBeGreaterThan(
            1.9,
          );
        }
      }
    });
  }
});

describe('holder on bolts of the block', () => {
  it('stands on those bolts and no other', () => {
    const base = twin();
    const bolt = (at: Vec3) => ({
      frame: { origin: at, x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] } as const,
      holeDiameter: 9,
      threadDiameter: 8,
    });
    const bolts = [bolt([-20, -330, -10]), bolt([140, -330, -10])];
    const plan = { ...base.plan, jig: markedJig({ holder: { collector: 0, bolts } }) };
    const { parts } = mockUpOf({
      plan,
      primaries: base.primaries,
      secondaries: [],
      flanges: flangesOf(plan),
      problem: { keptOut: [] },
    });
    const feet = standing(parts.filter((p) => p.name.startsWith('foot')));
    expect(feet).toHaveLength(2);
    for (const foot of feet) {
      expect(foot.low[2]).toBeCloseTo(-10, 3);
      const on = bolts.filter(({ frame }) => {
        const washer: Solid = placed(bar(7.5, 0, 6), frame);
        return overlapVolume(foot.solid, washer) > 100 && overlapVolume(foot.solid, placed(bar(4, 0, 60), frame)) === 0;
      });
      expect(on).toHaveLength(1);
    }
  });
});

describe('spacing comb', () => {
  const { plan } = twin();
  const tube = (id: string, points: readonly Vec3[], clr: readonly number[]): RoutedTube => {
    const polygon = { points, clr };
    const path = pathFromPolygon(polygon);
    const length = pathLength(path);
    const sections = [{ from: 0, od: 42.4, wall: 2 }];
    return { id, name: id, collector: 0, inlet: 1, polygon, path, length, target: length, sections, givenByHand: true };
  };
  const side = (id: string, x: number, y = 0) =>
    tube(
      id,
      [
        [x, y, 0],
        [x, y, 400],
      ],
      [],
    );
  const made = (tubes: readonly RoutedTube[]) => combsOf(plan, tubes, [], []);
  const seated = (part: SolidPart, t: RoutedTube, grown: number) =>
    overlapVolume(placed(solidOf(part.mesh), part.pose), solidOf(sweepRound(t.path, t.sections[0]!.od / 2 + grown)));

  it('has a seat at the true place of every tube, larger by fit and marks and no more, open to one side', () => {
    const tubes = [side('1', 0), side('2', 55, 12), side('3', 112, -4)];
    const { parts, notes } = made(tubes);
    expect(notes).toEqual([]);
    expect(parts).toHaveLength(1);
    const comb = parts[0]!;
    expectSoundAndApart(parts);
    for (const t of tubes) {
      expect(seated(comb, t, 1.15)).toBe(0);
      expect(seated(comb, t, 1.4)).toBeGreaterThan(1);
      // it comes off to one side only
      const off = [1, -1].filter((s) => {
        const pulled = { ...comb, pose: { ...comb.pose, origin: pointFrom(comb.pose, [0, s * 60, 0]) } };
        const half = { ...comb, pose: { ...comb.pose, origin: pointFrom(comb.pose, [0, s * 20, 0]) } };
        return seated(pulled, t, 1.1) === 0 && seated(half, t, 1.1) === 0;
      });
      expect(off).toHaveLength(1);
    }
  });

  it('is one for a group, none for tubes far apart, and a remark for tubes too near for a tooth', () => {
    expect(made([side('1', 0), side('2', 90)])).toEqual({ parts: [], notes: [] });
    const touching = made([side('1', 0), side('2', 44)]);
    expect(touching.parts).toEqual([]);
    expect(touching.notes).toEqual([expect.stringMatching(/^comb for 1 and 2: /)]);
    expect(made([side('1', 0), side('2', 55), side('3', 400), side('4', 455)]).parts).toHaveLength(2);
  });

  it('stands square to the tubes', () => {
    const slanted = ['1', '2'].map((id, i) =>
      tube(
        id,
        [
          [60 * i, 0, 0],
          [60 * i + 80, 100, 300],
        ],
        [],
      ),
    );
    const { parts } = made(slanted);
    const { direction } = headingAt(slanted[0]!.path, 100);
    expect(Math.hypot(...cross(parts[0]!.pose.z, direction))).toBeLessThan(1e-6);
  });
});
