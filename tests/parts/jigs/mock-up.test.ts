import { beforeAll, describe, expect, it } from 'vitest';
import { WORLD } from '../../../src/geometry/frame.js';
import { meshBounds } from '../../../src/geometry/mesh/measure.js';
import { asStlReaderSees, meshFaults } from '../../../src/geometry/mesh/validate.js';
import { endOf, startOf } from '../../../src/geometry/path/path.js';
import {
  evaluate,
  minGap,
  overlapVolume,
  placed,
  type Solid,
  solidOf,
  union,
  volumeOf,
} from '../../../src/geometry/solid/solid.js';
import { bar } from '../../../src/geometry/solid/solid-shapes.js';
import { sweepRound } from '../../../src/geometry/sweep/sweep.js';
import { along, scale, type Vec3 } from '../../../src/geometry/vec3.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { mockUpOf } from '../../../src/parts/jigs/jigs.js';
import { keyFor } from '../../../src/parts/jigs/key.js';
import { proofThickness } from '../../../src/parts/jigs/proof-plate.js';
import type { SolidPart } from '../../../src/parts/part.js';
import { placedMesh } from '../../../src/parts/printed-part.js';
import { piecesOf } from '../../../src/parts/tube/pieces.js';
import { steppedPair } from '../../support/stepped-pair.js';
import { twin } from '../../support/twin.js';

/** Rounding of printed coordinates (0.00025 mm) over a joint's faces. */
const ROUNDING = 0.5;

describe.each([
  ['a twin', { ...twin(), secondaries: [] }, []],
  ['a twin whose primaries grow and whose merge feeds another', steppedPair(), []],
])('mock-up of %s', (_, { plan, primaries, secondaries }, remarks) => {
  const flanges = flangesOf(plan);
  const tubes = [...primaries, ...secondaries];
  const steel = tubes.flatMap((t) => piecesOf(plan, t));
  let parts: readonly SolidPart[];
  let notes: readonly string[];
  let stands: { part: SolidPart; solid: Solid; low: Vec3; high: Vec3 }[];
  const one = (name: string) => stands.find((s) => s.part.name === name)!;
  const dummiesOf = (tube: { id: string }) => {
    const file = /^\d+$/.test(tube.id) ? tube.id : `${tube.id.toLowerCase().replaceAll(' ', '-')}-`;
    return stands.filter((s) => new RegExp(`^tube-${file}[a-z](-\\d+)?$`).test(s.part.name));
  };
  const holderOf = (collector: number) =>
    plan.collectors.length === 1
      ? 'holder'
      : `holder-${plan.collectors[collector]!.name.toLowerCase().replaceAll(' ', '-')}`;

  beforeAll(() => {
    ({ parts, notes } = mockUpOf({ plan, primaries, secondaries, flanges }));
    stands = parts.map((part) => {
      const mesh = placedMesh(part.mesh, part.pose);
      return { part, solid: solidOf(mesh), ...meshBounds(mesh) };
    });
  });

  it('has every part once, each one closed body, on the bed, with a name safe for files', () => {
    expect(notes).toHaveLength(remarks.length);
    for (const [i, remark] of remarks.entries()) expect(notes[i]).toMatch(remark);
    expect(new Set(parts.map((p) => p.name)).size).toBe(parts.length);
    for (const piece of steel) expect(parts.some((p) => p.name.startsWith(`tube-${piece.file}`))).toBe(true);
    for (const part of parts) {
      expect(part.name).toMatch(/^[a-z0-9-]+$/);
      expect(meshFaults(part.mesh, { bodies: 1 })).toEqual([]);
      expect(meshFaults(asStlReaderSees(part.mesh), { bodies: 1 })).toEqual([]);
      expect(meshBounds(part.mesh).low[2]).toBe(0);
      expect(part.tooBig).toBeNull();
    }
  });

  it('goes together: no two parts share space', () => {
    for (const [i, a] of stands.entries()) {
      for (const b of stands.slice(i + 1)) {
        if ([0, 1, 2].some((k) => a.low[k]! > b.high[k]! || b.low[k]! > a.high[k]!)) continue;
        const shared = overlapVolume(a.solid, b.solid);
        expect(shared, `${a.part.name} and ${b.part.name}`).toBeLessThan(ROUNDING);
      }
    }
  });

  it('puts every joint together: a rod along its axis runs from spigot into socket through no gap but the relief', () => {
    const whole = solidOf(evaluate(union(...stands.map((s) => s.solid))));
    for (const piece of steel) {
      const end = endOf(piece.path);
      const rod = placed(bar(0.5, -8, 9.9), {
        origin: end.point,
        x: cross(piece.endNormal, end.direction),
        y: piece.endNormal,
        z: end.direction,
      });
      expect(volumeOf(rod) - overlapVolume(whole, rod), piece.name).toBeLessThan(0.02);
    }
  });

  it('stands where the steel will: dummy tubes fill the routes from the flange to the inlets', () => {
    for (const tube of tubes) {
      const dummies = dummiesOf(tube);
      const pieces = piecesOf(plan, tube);
      const [from, to] = [startOf(pieces[0]!.path).point, endOf(pieces.at(-1)!.path).point];
      if (primaries.some((p) => p.id === tube.id)) expect(from[2]).toBeCloseTo(plan.flange.thickness, 9);
      else expect(from).toEqual(startOf(tube.path).point);
      expect(to.map((v) => v.toFixed(6))).toEqual(endOf(tube.path).point.map((v) => v.toFixed(6)));
      // a core of the steel tube, clear of keys and feet, is full of dummy but for sockets
      const shell = pieces.map((p) => solidOf(sweepRound(p.path, p.od / 2 - 1)));
      const missing = shell.reduce(
        (v, s) => v + volumeOf(s) - overlapVolume(union(...dummies.map((t) => t.solid)), s),
        0,
      );
      const cut = 0.02 * shell.reduce((v, s) => v + volumeOf(s), 0);
      expect(missing).toBeLessThan(cut + 400); // relief and fit of the sockets, the tilted face
    }
  });

  it('bolts feet to the flange at its bolts and keeps struts 2 mm off every tube', () => {
    const feet = stands.filter((s) => s.part.name.startsWith('foot'));
    expect(feet.length).toBeGreaterThanOrEqual(2);
    const used = new Set<number>();
    for (const foot of feet) {
      const at = plan.heads[0]!.bolts.findIndex((b) => {
        const bolt = placed(bar(b.threadDiameter / 2, 0, 60), {
          ...plan.heads[0]!.frame,
          origin: [b.at[0], b.at[1], 0],
        });
        const washer = placed(bar(b.holeDiameter / 2 + 3, 0, 60), {
          ...plan.heads[0]!.frame,
          origin: [b.at[0], b.at[1], 0],
        });
        return overlapVolume(foot.solid, washer) > 100 && overlapVolume(foot.solid, bolt) === 0;
      });
      expect(at).toBeGreaterThanOrEqual(0);
      used.add(at);
      expect(foot.low[2]).toBeCloseTo(proofThickness(plan), 3);
    }
    expect(used.size).toBe(feet.length);
    const skins = union(...steel.map((p) => solidOf(sweepRound(p.path, p.od / 2))));
    for (const strut of stands.filter((s) => /^(strut|foot|elbow)/.test(s.part.name))) {
      expect(minGap(strut.solid, skins, 3), strut.part.name).toBeGreaterThanOrEqual(2 - 0.05);
    }
  });

  it('leaves no gap at any face: plug, tubes and holder touch in a row, struts touch holder and foot', () => {
    const touch = (a: string, b: string) =>
      expect(minGap(one(a).solid, one(b).solid, 1), `${a} and ${b}`).toBeLessThan(0.01);
    for (const tube of tubes) {
      const dummies = dummiesOf(tube).map((s) => s.part.name);
      const primary = primaries.find((p) => p.id === tube.id);
      const start = primary ? `plug-${tube.id}` : parts.findLast((p) => p.name.startsWith('stem'))!.name;
      const row = [start, ...dummies, holderOf(tube.collector)];
      for (let i = 1; i < row.length; i++) touch(row[i - 1]!, row[i]!);
    }
    for (const [i] of plan.collectors.entries()) {
      const holder = holderOf(i);
      const feet = parts.filter((p) => p.name.startsWith(holder.replace('holder', 'foot')));
      for (const foot of feet) {
        const strut = foot.name.replace('foot', 'strut');
        const bars = parts.filter((p) => p.name.startsWith(strut)).map((p) => p.name);
        touch(holder, bars[0]!);
        touch(bars.at(-1)!, foot.name);
      }
    }
  });

  it('fills the openings: a plug keeps its fit from the flange and cannot fall through', () => {
    for (const { cylinder } of primaries) {
      const plug = one(`plug-${cylinder}`);
      const proof = one('flange-proof');
      expect(plug.low[2]).toBeCloseTo(0, 3);
      const pushed = placed(plug.solid, { origin: [0, 0, -1], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] });
      expect(overlapVolume(pushed, proof.solid)).toBeGreaterThan(50);
      const lifted = placed(plug.solid, { origin: [0, 0, 0.1], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] });
      expect(minGap(lifted, proof.solid, 1)).toBeGreaterThan(0.09);
    }
  });

  it('keeps a round plug from turning', () => {
    const plug = one('plug-1').solid;
    const c = Math.cos(0.2);
    const s = Math.sin(0.2);
    const turned = placed(plug, { origin: [0, 0, 0], x: [c, s, 0], y: [-s, c, 0], z: [0, 0, 1] });
    expect(overlapVolume(turned, one('flange-proof').solid)).toBeGreaterThan(1);
  });

  it('gives the same parts for the same plan', () => {
    const again = mockUpOf({ plan, primaries, secondaries, flanges }).parts;
    expect(again.map((p) => [p.name, p.pose, p.mesh.positions.length])).toEqual(
      parts.map((p) => [p.name, p.pose, p.mesh.positions.length]),
    );
  });
});

describe('stem of a collector that feeds another', () => {
  const pair = steppedPair();
  const { plan } = pair;
  const secondary = pair.secondaries[0]!;
  const mockUp = mockUpOf({ ...pair, flanges: flangesOf(plan) });
  const named = (name: string) => mockUp.parts.find((p) => p.name === name)!;
  const inWorld = (name: string): Solid => placed(solidOf(named(name).mesh), named(name).pose);

  it('runs round and full from the holder to the outlet, where its spigot is clocked as the secondary is', () => {
    const { point, direction } = startOf(secondary.path);
    const normal = piecesOf(plan, secondary)[0]!.startNormal;
    const frame = { origin: point, x: cross(normal, direction), y: normal, z: direction };
    const stem = inWorld('stem-y-merge');
    const core = placed(bar(plan.collectors[0]!.outlet.od / 2 - 1, -40, 0), frame);
    expect(volumeOf(core) - overlapVolume(stem, core)).toBeLessThan(0.001 * volumeOf(core));
    const key = keyFor(plan.secondaries!.od, plan.jig.fit);
    const tip = placed(bar(0.3, 2, 8), { ...frame, origin: along(point, normal, key.flat + 0.6) });
    const other = placed(bar(0.3, 2, 8), { ...frame, origin: along(point, normal, -key.flat - 0.6) });
    expect(overlapVolume(stem, tip)).toBe(0);
    expect(overlapVolume(stem, other)).toBeCloseTo(volumeOf(other), 3);
  });

  it('goes into the base of its holder, clear of the sockets of the tubes', () => {
    const holder = inWorld('holder-y-merge');
    const pushed = placed(inWorld('stem-y-merge'), { ...WORLD, origin: scale(plan.collectors[0]!.frame.z, -1.5) });
    expect(overlapVolume(holder, inWorld('stem-y-merge'))).toBeLessThan(ROUNDING);
    expect(overlapVolume(holder, pushed)).toBeGreaterThan(500); // its shoulder meets the base
  });

  it('is left out with a remark where the collector ends before its holder would', () => {
    const [merge, last] = plan.collectors;
    const short = { ...merge!, mergeHalfAngle: 0, outlet: { ...merge!.outlet, coneLength: 1, tail: 0 } };
    const { parts, notes } = mockUpOf({
      ...pair,
      plan: { ...plan, collectors: [short, last!] },
      flanges: flangesOf(plan),
    });
    expect(notes[0]).toMatch(/^collector Y merge: it ends before a printed holder would/);
    expect(parts.some((p) => p.name === 'holder-y-merge')).toBe(false);
    expect(parts.some((p) => p.name === 'holder-last')).toBe(true);
  });
});

describe('a collector no strut reaches', () => {
  it('is remarked on, and its holder stands alone', () => {
    const { plan, primaries } = twin();
    const boltless = { ...plan, heads: plan.heads.map((h) => ({ ...h, bolts: [] })) };
    const flanges = flangesOf(boltless);
    const { parts, notes } = mockUpOf({ plan: boltless, primaries, secondaries: [], flanges });
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatch(/^collector Y merge: no way for a strut/);
    expect(parts.filter((p) => p.kind === 'collector-holder').map((p) => p.name)).toEqual(['holder']);
  });
});

describe('mock-up for a small printer', () => {
  const small = twin([130, 130, 150]);
  const cut = mockUpOf({ ...small, secondaries: [], flanges: flangesOf(small.plan) }).parts;

  it('parts the flange by dovetails that go together and keep their fit', () => {
    const pieces = cut.filter((p) => p.kind === 'flange-proof');
    expect(pieces).toHaveLength(2);
    for (const p of pieces) expect(p.tooBig).toBeNull();
    const [left, right] = pieces.map((p) => placed(solidOf(p.mesh), p.pose));
    expect(overlapVolume(left!, right!)).toBeLessThan(ROUNDING);
    // the tongue holds: pulled apart by 2 mm along x it catches
    const pulled = placed(right!, { origin: [2, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] });
    expect(overlapVolume(left!, pulled)).toBeGreaterThan(1);
  });

  it('spans struts and straights so that all but what cannot be parted fits', () => {
    for (const p of cut) {
      if (p.tooBig === null) continue;
      expect(p.name).toMatch(/^(holder|tube-\d[a-z]$)/);
      expect(p.tooBig).toMatch(/does not fit the bed of 130 x 130 x 150 mm/);
    }
  });
});

function cross(a: Vec3, b: Vec3): Vec3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}
