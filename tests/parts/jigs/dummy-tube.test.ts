import { describe, expect, it } from 'vitest';
import { pointFrom, pointInto } from '../../../src/geometry/frame.js';
import { meshBounds, meshVolume, shellsOf } from '../../../src/geometry/mesh/measure.js';
import { meshFaults } from '../../../src/geometry/mesh/validate.js';
import { endOf, pathLength, startOf } from '../../../src/geometry/path/path.js';
import { overlapVolume, placed, solidOf, volumeOf } from '../../../src/geometry/solid/solid.js';
import { bar } from '../../../src/geometry/solid/solid-shapes.js';
import { sweepRound, sweptSectionArea } from '../../../src/geometry/sweep/sweep.js';
import { CHORD_ERROR } from '../../../src/geometry/tolerance.js';
import { along, distance, type Vec3 } from '../../../src/geometry/vec3.js';
import { dummyTube } from '../../../src/parts/jigs/dummy-tube.js';
import { jointKeys } from '../../../src/parts/jigs/joint-keys.js';
import { keyFor, spigot } from '../../../src/parts/jigs/key.js';
import { type PrintedSpan, printedSpans } from '../../../src/parts/jigs/printed-spans.js';
import { jigWith } from '../../support/jig-fixture.js';
import { madeSpan } from '../../support/made-span.js';

const OD = 42.4;
const key = keyFor(OD, 0.2);
const bed: Vec3 = [210, 210, 210];
const jig = jigWith({ bed });

const piece = (points: readonly Vec3[], clr: readonly number[], name = '2C', od = OD): PrintedSpan =>
  madeSpan(points, clr, { name, file: name.toLowerCase(), od });
const tube = (p: PrintedSpan, startKey = 10, endKey = 10) =>
  dummyTube({
    piece: p,
    start: { key, length: startKey, screw: null },
    end: { key, length: endKey, screw: null },
    face: null,
    jig,
  });

const straight = piece(
  [
    [500, -40, 300],
    [520, 30, 380],
  ],
  [],
);
const bend = piece(
  [
    [500, -40, 300],
    [500, 60, 300],
    [560, 120, 340],
  ],
  [63.5],
);

describe('dummy tube', () => {
  for (const [name, p] of [
    ['straight', straight],
    ['bend', bend],
  ] as const) {
    it(`${name}: one closed body on the bed, of the piece's own volume (Pappus and Guldin) but for keys, name and foot`, () => {
      const part = tube(p);
      expect(meshFaults(part.mesh, { bodies: 1 })).toEqual([]);
      expect(meshBounds(part.mesh).low[2]).toBe(0);
      expect(part.tooBig).toBeNull();
      // plain: no keys; what is left besides the tube is the name, 0.6 mm proud, and a foot of 0.4 mm
      const plain = tube(p, 0, 0);
      const polygonal = sweptSectionArea(OD / 2) * pathLength(p.path);
      expect(Math.abs(meshVolume(plain.mesh) - polygonal)).toBeLessThan(0.004 * polygonal);
      const round = Math.PI * (OD / 2) ** 2 * pathLength(p.path);
      expect(meshVolume(plain.mesh) / round).toBeGreaterThan(1 - 0.004 - (2 * CHORD_ERROR) / (OD / 2));
    });

    it(`${name}: stands in the world exactly where the steel does`, () => {
      const part = tube(p, 0, 0);
      const world = placed(solidOf(part.mesh), part.pose);
      const steel = solidOf(sweepRound(p.path, OD / 2 - 0.41));
      // all of a tube one foot thinner is inside it
      expect(volumeOf(steel) - overlapVolume(world, steel)).toBeLessThan(0.01 * CHORD_ERROR * volumeOf(steel));
    });

    it(`${name}: has its spigot along the end and its socket along the start, clocked by the normals`, () => {
      const part = tube(p);
      const world = placed(solidOf(part.mesh), part.pose);
      const [start, end] = [startOf(p.path), endOf(p.path)];
      const rod = (from: Vec3, axis: Vec3, normal: Vec3) => placed(bar(0.5, 0.5, 9.5), frameOf(from, axis, normal));
      expect(overlapVolume(world, rod(start.point, start.direction, p.startNormal))).toBe(0);
      const tip = rod(end.point, end.direction, p.endNormal);
      expect(overlapVolume(world, tip)).toBeCloseTo(volumeOf(tip), 3);
      // a spigot of the piece before, clocked by this piece's start normal, goes in
      const before = spigot(key, 9.9, frameOf(start.point, start.direction, p.startNormal), 0);
      expect(overlapVolume(world, before)).toBeLessThan(0.01);
      // the end's flat faces the carried normal: a probe just outside the flat is free, opposite it is not
      const probe = (side: number) =>
        placed(
          bar(0.3, 2, 8),
          frameOf(along(end.point, p.endNormal, side * (key.flat + 0.6)), end.direction, p.endNormal),
        );
      expect(overlapVolume(world, probe(1))).toBe(0);
      expect(overlapVolume(world, probe(-1))).toBeCloseTo(volumeOf(probe(-1)), 3);
    });
  }

  it('prints a bend on its side with the name on top, a straight on its head end', () => {
    expect(tube(bend).size[2]).toBeCloseTo(OD - 0.4 + 0.6, 2);
    expect(tube(straight).size[2]).toBeCloseTo(pathLength(straight.path) + 10, 2);
    const lowest = pointFrom(tube(straight).pose, [0, 0, 0]);
    expect(distance(lowest, startOf(straight.path).point)).toBeLessThan(1); // the name shifts the footprint's middle
  });

  it('carries its name', () => {
    const long = meshVolume(
      tube(
        piece(
          [
            [0, 0, 0],
            [0, 0, 60],
          ],
          [],
          '2C',
        ),
      ).mesh,
    );
    const longer = meshVolume(
      tube(
        piece(
          [
            [0, 0, 0],
            [0, 0, 60],
          ],
          [],
          '2C-1',
        ),
      ).mesh,
    );
    expect(longer - long).toBeGreaterThan(2);
  });

  it('is cut off at the flange where the port is tilted', () => {
    const p = { ...straight, first: true };
    const start = startOf(p.path).point;
    const face = { point: start, normal: [0, 0, 1] as const };
    const part = dummyTube({
      piece: p,
      start: { key, length: 10, screw: null },
      end: { key, length: 10, screw: null },
      face,
      jig,
    });
    expect(meshFaults(part.mesh, { bodies: 1 })).toEqual([]);
    const { positions } = part.mesh;
    let lowest = Number.POSITIVE_INFINITY;
    for (let i = 0; i < positions.length; i += 3) {
      lowest = Math.min(lowest, pointFrom(part.pose, [positions[i]!, positions[i + 1]!, positions[i + 2]!])[2]);
    }
    expect(lowest).toBeCloseTo(start[2], 3);
    expect(pointInto(part.pose, start)[2]).toBeCloseTo(0, 3); // it stands on that face
  });
});

const lengths = (pieces: readonly PrintedSpan[], plan = jig) => jointKeys(pieces, plan, OD, null).map((j) => j.length);

describe('keys of the joints', () => {
  it('are those of the plan where there is room, shorter where not, none below 3 mm', () => {
    const run = (l: number) =>
      piece(
        [
          [0, 0, 0],
          [0, 0, l],
        ],
        [],
      );
    expect(lengths([run(60)])).toEqual([10, 10]);
    expect(lengths([run(60), run(9)])).toEqual([10, 6.5, 10]);
    expect(lengths([run(60), run(4)])).toEqual([10, 0, 10]);
  });

  it('keep a wall of 2 mm where the tube bends away', () => {
    const tight = piece(
      [
        [0, 0, 0],
        [0, 24, 0],
        [24, 24, 0],
      ],
      [23],
    );
    const [length] = lengths([tight], { ...jig, keyLength: 60 });
    const corner = Math.hypot(23 + key.radius + key.fit, length! + 0.5 - 1); // 1 mm of leg before the bend
    expect(23 + OD / 2 - corner).toBeGreaterThanOrEqual(2 - 1e-9);
  });

  it('are those of the smaller part where sizes meet, and of the last tube at the holder', () => {
    const run = (od: number) =>
      piece(
        [
          [0, 0, 0],
          [0, 0, 60],
        ],
        [],
        '2C',
        od,
      );
    const keys = jointKeys([run(42.4), run(45), run(50)], jig, 38, null).map((j) => j.key);
    expect(keys).toEqual([38, 42.4, 45, 50].map((d) => keyFor(d, jig.fit)));
  });

  it('make short pieces that are still one closed body, none of it before the start', () => {
    for (const l of [0.07, 2, 5, 7, 12]) {
      const p = piece(
        [
          [0, 0, 0],
          [0, 0, l],
        ],
        [],
      );
      const [startKey] = lengths([p]);
      const part = tube(p, startKey!);
      expect(shellsOf(part.mesh)).toHaveLength(1);
      if (startKey === 0) expect(part.title).toMatch(/glue/);
      expect(part.size[2]).toBeCloseTo(l + 10, 2);
    }
  });
});

describe('printed spans', () => {
  it('divide a straight longer than the bed into equal lengths that add up', () => {
    const long = piece(
      [
        [0, 0, 0],
        [0, 0, 430],
      ],
      [],
      '3B',
    );
    const spans = printedSpans([long], bed, 10);
    expect(spans.map((s) => s.name)).toEqual(['3B-1', '3B-2', '3B-3']);
    expect(spans.reduce((sum, s) => sum + pathLength(s.path), 0)).toBeCloseTo(430, 9);
    for (const s of spans) expect(tube(s).tooBig).toBeNull();
    expect(printedSpans([straight, bend], bed, 10)).toEqual([straight, bend]);
  });
});

function frameOf(origin: Vec3, z: Vec3, y: Vec3) {
  return {
    origin,
    x: [y[1] * z[2] - y[2] * z[1], y[2] * z[0] - y[0] * z[2], y[0] * z[1] - y[1] * z[0]] as const,
    y,
    z,
  };
}
