import { beforeAll, describe, expect, it } from 'vitest';
import { pointFrom, pointInto } from '../../../../src/geometry/frame.js';
import { pointOf } from '../../../../src/geometry/mesh/measure.js';
import { meshFaults } from '../../../../src/geometry/mesh/validate.js';
import { headingAt, pathLength } from '../../../../src/geometry/path/path.js';
import { minGap, overlapVolume, placed, type Solid, solidOf, union } from '../../../../src/geometry/solid/solid.js';
import { sweepRound } from '../../../../src/geometry/sweep/sweep.js';
import { CHORD_ERROR } from '../../../../src/geometry/tolerance.js';
import { along, distance, type Vec3 } from '../../../../src/geometry/vec3.js';
import { benchJigs, tubeOnBench } from '../../../../src/parts/jigs/bench/bench.js';
import type { SolidPart } from '../../../../src/parts/part.js';
import { placedMesh } from '../../../../src/parts/printed-part.js';
import { piecesOf } from '../../../../src/parts/tube/pieces.js';
import type { RoutedTube } from '../../../../src/routing/routed.js';
import { BENCH, withBench } from '../../../support/bench-plan.js';
import { steppedPair } from '../../../support/stepped-pair.js';

const { plan: bare, primaries, secondaries } = steppedPair();
const plan = withBench(bare);
const tubes: readonly RoutedTube[] = [...primaries, ...secondaries];
const solidOfPart = (p: SolidPart): Solid => placed(solidOf(p.mesh), p.pose);

describe('jigs for the bench of a twin whose primaries grow', () => {
  let parts: readonly SolidPart[];
  const of = (kind: SolidPart['kind']) => parts.filter((p) => p.kind === kind);
  const set = tubes.map((tube) => ({ tube, ...tubeOnBench(plan, tube, BENCH) }));
  const saddlesOf = (file: string) => parts.filter((p) => new RegExp(`^saddle-${file}-\\d+$`).test(p.name));

  beforeAll(() => {
    parts = benchJigs(plan, primaries, secondaries).parts;
  });

  it('are none where the plan asks for none', () => {
    expect(benchJigs(bare, primaries, secondaries)).toEqual({ parts: [], notes: [] });
    const rings = benchJigs(withBench(bare, { saddles: false, sleeves: false }), primaries, secondaries).parts;
    expect(new Set(rings.map((p) => p.kind))).toEqual(new Set(['clocking-ring']));
  });

  it('are each one closed body with a name of its own and say that they come off', () => {
    expect(new Set(parts.map((p) => p.name)).size).toBe(parts.length);
    for (const kind of ['bench-saddle', 'bench-plate', 'scribing-sleeve', 'clocking-ring'] as const) {
      expect(of(kind).length, kind).toBeGreaterThan(0);
    }
    for (const p of parts) {
      expect(meshFaults(p.mesh, { bodies: 1 }), p.name).toEqual([]);
      expect(p.title).toMatch(/must come off before full welding: plastic burns and gives fumes$/);
      expect(p.tooBig, p.name).toBeNull();
    }
  });

  it('saddles carry the tube at its true place: the seat lies on its skin, at its bottom without a gap', () => {
    for (const { tube, file, places } of set) {
      expect(places.length).toBeGreaterThan(0);
      for (const [i, place] of places.entries()) {
        const part = saddlesOf(file)[i]!;
        const mesh = placedMesh(part.mesh, part.pose);
        const start = piecesOf(plan, tube)[0]!.fromRun;
        let least = Infinity;
        let seat = 0;
        for (let k = 0; k < mesh.positions.length / 3; k++) {
          const d = toPath(tube, start + place.run, pointOf(mesh, k));
          if (d > place.radius + 2 * plan.jig.fit + 3 * CHORD_ERROR) continue;
          seat++;
          least = Math.min(least, d);
        }
        expect(seat, part.name).toBeGreaterThan(10);
        // nothing of the saddle within the tube, and something right at its skin
        expect(least, part.name).toBeGreaterThan(place.radius - CHORD_ERROR);
        expect(least, part.name).toBeLessThan(place.radius + CHORD_ERROR);
      }
    }
  });

  it('saddles share no space with their tube, with one another or with rings, and the tube lifts straight out', () => {
    for (const { tube, file, at } of set) {
      const steel = union(...piecesOf(plan, tube).map((p) => solidOf(sweepRound(p.path, p.od / 2))));
      const saddles = saddlesOf(file);
      const rings = parts.filter((p) => new RegExp(`^ring-${file}-\\d+$`).test(p.name));
      for (const [i, s] of saddles.entries()) {
        const solid = solidOfPart(s);
        expect(overlapVolume(solid, steel), s.name).toBeLessThan(2);
        for (const other of [...saddles.slice(i + 1), ...rings]) {
          expect(overlapVolume(solid, solidOfPart(other)), `${s.name} and ${other.name}`).toBe(0);
        }
        for (const lift of [3, 10, 30]) {
          const up = placed(steel, { origin: along([0, 0, 0], at.z, lift), x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] });
          expect(overlapVolume(solid, up), `${s.name} lifted ${lift}`).toBeLessThan(2);
        }
      }
    }
  });

  it('saddles keep the room of the torch at every joint between pieces', () => {
    for (const { tube, file } of set) {
      for (const joint of piecesOf(plan, tube).slice(1)) {
        const { point, direction } = headingAt(tube.path, joint.fromRun);
        // the weld itself: a bead all round, 1 mm either way
        const bead = solidOf(
          sweepRound(
            { segments: [{ kind: 'straight', from: along(point, direction, -1), direction, length: 2 }] },
            joint.od / 2,
          ),
        );
        for (const s of saddlesOf(file)) {
          expect(minGap(solidOfPart(s), bead, 60), `${s.name} at ${joint.name}`).toBeGreaterThan(14);
        }
      }
      for (const place of set.find((s) => s.tube === tube)!.places) {
        const start = piecesOf(plan, tube)[0]!.fromRun;
        const own = piecesOf(plan, tube).find((p) => p.name === place.piece)!;
        const [from, to] = [own.fromRun - start, own.toRun - start];
        if (!own.first) expect(place.run - place.halfLength - from).toBeGreaterThanOrEqual(BENCH.torchRoom - 1e-9);
        if (!own.last) expect(to - place.run - place.halfLength).toBeGreaterThanOrEqual(BENCH.torchRoom - 1e-9);
      }
    }
  });

  it('saddles stand on the plate with both holes over holes of it', () => {
    const plates = of('bench-plate');
    const plateAt = set.reduce((a, b) => (pathLength(b.lying.path) > pathLength(a.lying.path) ? b : a));
    const saddles = saddlesOf(plateAt.file);
    for (const [i, place] of plateAt.places.entries()) {
      for (const [column, row] of place.holes) {
        expect(Math.min(column, row)).toBeGreaterThanOrEqual(0);
        const frame = { ...plateAt.at, origin: pointFrom(plateAt.at, [column * 25, row * 25, 0]) };
        const pin = placed(pinThrough(5), frame);
        for (const p of [...plates, saddles[i]!]) expect(overlapVolume(solidOfPart(p), pin), p.name).toBe(0);
        const wide = placed(pinThrough(7), frame);
        expect(plates.reduce((v, p) => v + overlapVolume(solidOfPart(p), wide), 0)).toBeGreaterThan(100);
        expect(overlapVolume(solidOfPart(saddles[i]!), wide)).toBeGreaterThan(50);
      }
    }
    for (const s of saddles) {
      const low = Math.min(...vertices(s).map((v) => pointInto(plateAt.at, v)[2]));
      expect(low).toBeCloseTo(0, 3);
    }
  });

  it('base plates go together: their keys share no space and hold when pulled apart', () => {
    const plates = of('bench-plate');
    expect(plates.length).toBeGreaterThan(1);
    const [a, b] = [solidOfPart(plates[0]!), solidOfPart(plates[1]!)];
    expect(overlapVolume(a, b)).toBeLessThan(0.6);
    const { x } = plates[0]!.pose;
    const pulled = placed(b, { origin: along([0, 0, 0], x, 1.5), x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] });
    expect(overlapVolume(a, pulled)).toBeGreaterThan(1);
  });
});

const pinThrough = (diameter: number): Solid =>
  solidOf(
    sweepRound({ segments: [{ kind: 'straight', from: [0, 0, -9], direction: [0, 0, 1], length: 16 }] }, diameter / 2),
  );

const vertices = (p: SolidPart): Vec3[] => {
  const mesh = placedMesh(p.mesh, p.pose);
  return Array.from({ length: mesh.positions.length / 3 }, (_, i) => pointOf(mesh, i));
};

/** Distance of a point from the path near a run, by small steps. */
function toPath(tube: RoutedTube, run: number, p: Vec3): number {
  let best = Infinity;
  for (let d = -40; d <= 40; d += 0.5) best = Math.min(best, distance(p, headingAt(tube.path, run + d).point));
  return best;
}
