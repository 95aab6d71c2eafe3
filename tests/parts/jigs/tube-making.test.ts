import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pointFrom } from '../../../src/geometry/frame.js';
import { meshVolume, shellsOf } from '../../../src/geometry/mesh/measure.js';
import { meshFaults } from '../../../src/geometry/mesh/validate.js';
import { carryNormal, endOf, headingAt, pathLength, startOf } from '../../../src/geometry/path/path.js';
import { overlapVolume, placed, solidOf, volumeOf } from '../../../src/geometry/solid/solid.js';
import { bar, signedArea } from '../../../src/geometry/solid/solid-shapes.js';
import { CHORD_ERROR } from '../../../src/geometry/tolerance.js';
import { along, cross, dot, length, rotateAbout, scale, sub, type Vec3 } from '../../../src/geometry/vec3.js';
import type { JigPlan } from '../../../src/params/plan.js';
import { CUT_LINE, dummyTube } from '../../../src/parts/jigs/dummy-tube.js';
import { type JointKey, jointGap } from '../../../src/parts/jigs/joint-keys.js';
import { SCREW_HOLE, SCREW_PILOT } from '../../../src/parts/jigs/joint-screw.js';
import { keyFor, spigot } from '../../../src/parts/jigs/key.js';
import type { PrintedSpan } from '../../../src/parts/jigs/printed-spans.js';
import { boreSection, boreSizes } from '../../../src/parts/jigs/tube-bore.js';
import { TICK } from '../../../src/parts/jigs/tube-marks.js';
import { jigWith } from '../../support/jig-fixture.js';
import { madeSpan } from '../../support/made-span.js';

const OD = 42.4;

const span = (points: readonly Vec3[], clr: readonly number[], with_: Partial<PrintedSpan> = {}): PrintedSpan =>
  madeSpan(points, clr, { fromRun: 103.7, ...with_ });
const straight = span(
  [
    [500, -40, 300],
    [560, 50, 380],
  ],
  [],
);
const bend = span(
  [
    [500, -40, 300],
    [500, 80, 300],
    [590, 150, 340],
  ],
  [63.5],
);

function make(piece: PrintedSpan, jig: JigPlan, lengths: readonly [number, number] = [10, 10]) {
  const key = keyFor(piece.od, jointGap(jig));
  const screw = (l: number, n: Vec3) => (jig.joint === 'screw' && l >= 7 ? scale(n, -1) : null);
  const start: JointKey = { key, length: lengths[0], screw: screw(lengths[0], piece.startNormal) };
  const end: JointKey = { key, length: lengths[1], screw: screw(lengths[1], piece.endNormal) };
  const part = dummyTube({ piece, start, end, face: null, jig });
  return { part, world: placed(solidOf(part.mesh), part.pose), start, end };
}
const frameOf = (origin: Vec3, z: Vec3, y: Vec3) => ({ origin, x: cross(y, z), y, z });

describe.each([
  ['a straight', straight, null],
  ['a bend', bend, [0, 0, 1] as Vec3],
])('%s, hollow', (_, piece, lies) => {
  const jig = jigWith({ tubeWall: 2.4 });

  it('lacks the volume of its bore (Pappus and Guldin: section times length, cones a third of their ends and mean)', () => {
    const solid = make(piece, jigWith()).part;
    const hollow = make(piece, jig);
    expect(meshFaults(hollow.part.mesh, { bodies: 1 })).toEqual([]);
    const of = {
      path: piece.path,
      radius: OD / 2,
      wall: 2.4,
      cord: null,
      back: 0,
      up: lies,
      start: hollow.start,
      end: hollow.end,
    };
    const sizes = boreSizes({ ...of, side: [1, 0, 0] })!;
    const [from, to] = [10 + 0.5, pathLength(piece.path) + 10];
    let bore = 0;
    for (const [i, b] of sizes.slice(1).entries()) {
      const a = sizes[i]!;
      // what the socket has taken already and what lies beyond the spigot's tip does not count
      const run = Math.min(b.run, to) - Math.max(a.run, from);
      if (run > 0) bore += (run * (a.size ** 2 + a.size * b.size + b.size ** 2)) / 3;
    }
    const inner = OD / 2 - 2.4;
    // a circle, or half of one under a square's half set on its corner
    const section = lies === null ? Math.PI * inner ** 2 : (Math.PI / 2 + 1) * inner ** 2;
    const { low, area } = { low: 1 - CHORD_ERROR / inner, area: signedArea(boreSection(of)) / section };
    expect(area).toBeLessThan(1);
    expect(area).toBeGreaterThan(low);
    bore *= area * section;
    const lacks = meshVolume(solid.mesh) - meshVolume(hollow.part.mesh);
    expect(Math.abs(lacks - bore) / bore).toBeLessThan(0.004 + CHORD_ERROR / (OD / 2));
  });

  it('is open from end to end: one skin with a way through', () => {
    const { part, world } = make(piece, jig);
    expect(shellsOf(part.mesh)).toEqual([expect.objectContaining({ genus: 1 })]);
    for (let run = 0; run < pathLength(piece.path); run += 5) {
      const { point, direction } = headingAt(piece.path, run);
      const probe = placed(bar(0.5, -1, 1), frameOf(point, direction, cross(direction, firstAcross(direction))));
      expect(overlapVolume(world, probe), `at ${run} mm`).toBe(0);
    }
  });
});

const firstAcross = (d: Vec3): Vec3 => {
  const c = cross(d, Math.abs(d[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0]);
  return scale(c, 1 / length(c));
};

describe.each(['press', 'slide', 'screw'] as const)('joint: %s', (joint) => {
  const jig = jigWith({ joint, tubeWall: 2.4 });
  const { world, start } = make(bend, jig);
  const { point, direction } = startOf(bend.path);
  const peg = (turn: number, grown = 0) =>
    spigot(
      { ...start.key, radius: start.key.radius + grown, flat: start.key.flat + grown },
      9.9,
      frameOf(point, direction, rotateAbout(bend.startNormal, direction, turn)),
      0,
    );

  it('goes together in one clocking only, with the gap the plan asks for', () => {
    expect(overlapVolume(world, peg(0))).toBeLessThan(0.01);
    const gap = joint === 'press' ? 0.1 : 0.2;
    expect(overlapVolume(world, peg(0, gap - 0.02))).toBeLessThan(0.01);
    expect(overlapVolume(world, peg(0, gap + 0.05))).toBeGreaterThan(1);
    for (let k = 1; k < 24; k++) expect(overlapVolume(world, peg((Math.PI * k) / 12)), `turn ${k}`).toBeGreaterThan(1);
  });
});

describe('screw across the key', () => {
  const jig = jigWith({ joint: 'screw' });

  it('passes the socket freely and bites in the spigot, on one axis when the two stand together', () => {
    const { world } = make(bend, jig);
    const [start, end] = [startOf(bend.path), endOf(bend.path)];
    const across = (p: Vec3, d: Vec3, n: Vec3, r: number, from: number, to: number) =>
      placed(bar(r, from, to), frameOf(along(p, d, 5), scale(n, -1), d));
    const through = across(start.point, start.direction, bend.startNormal, 1.5, 0, OD / 2 + 3);
    expect(overlapVolume(world, through)).toBe(0);
    const { radius } = keyFor(OD, 0.2);
    expect(overlapVolume(world, across(end.point, end.direction, bend.endNormal, 1.2, 0.5, radius))).toBe(0);
    const thread = across(end.point, end.direction, bend.endNormal, 1.5, 1, radius - 1);
    expect(overlapVolume(world, thread)).toBeGreaterThan(0.2 * volumeOf(thread));
    expect([SCREW_HOLE, SCREW_PILOT]).toEqual([3.4, 2.5]); // ISO 273 medium and ISO 2306 for M3
  });

  it('stops before a cord', () => {
    const { world } = make(straight, { ...jig, cord: 4 });
    const { point, direction } = endOf(straight.path);
    const cord = placed(bar(2, -20, 9.9), frameOf(point, direction, straight.endNormal));
    expect(overlapVolume(world, cord)).toBeLessThan(0.01);
    const wall = placed(
      bar(0.2, 2.25, 2.95),
      frameOf(along(point, direction, 5), scale(straight.endNormal, -1), direction),
    );
    expect(overlapVolume(world, wall)).toBeCloseTo(volumeOf(wall), 3);
  });
});

describe('scale', () => {
  const heightsAt = (piece: PrintedSpan, jig: JigPlan) => {
    const { part } = make(piece, jig);
    const bendAt = piece.path.segments.find((s) => s.kind === 'bend');
    const up: Vec3 = bendAt?.kind === 'bend' ? bendAt.normal : piece.startNormal;
    // running lengths, by the centreline, of every corner that stands proud of the skin on the outside line
    const runs: number[] = [];
    for (let i = 0; i < part.mesh.positions.length; i += 3) {
      const p = pointFrom(part.pose, [
        part.mesh.positions[i]!,
        part.mesh.positions[i + 1]!,
        part.mesh.positions[i + 2]!,
      ]);
      const run = nearestRun(piece, p);
      const { point, direction } = headingAt(piece.path, run);
      const way = sub(p, point);
      if (Math.abs(length(way) - OD / 2 - TICK.high) > 0.03 || run < 0.5 || run > pathLength(piece.path) - 0.5)
        continue;
      if (dot(way, cross(direction, up)) < 0.97 * length(way)) continue;
      runs.push(piece.fromRun + run);
    }
    return runs;
  };

  it.each([
    ['straight', straight, 'mm', 10],
    ['bend', bend, 'mm', 10],
    ['bend in inches', bend, 'in', 12.7],
  ] as const)('%s: ticks at the true running length from the head face', (_, piece, unit, step) => {
    const runs = heightsAt(piece, jigWith({ scale: unit, marks: true }));
    const seen = new Set<number>();
    for (const run of runs) {
      const k = Math.round(run / step);
      seen.add(k);
      // a corner of a rib is half its width from its middle
      expect(Math.abs(Math.abs(run - k * step) - TICK.width / 2)).toBeLessThan(CHORD_ERROR);
    }
    const within = (k: number) => k * step > piece.fromRun + 2 && k * step < piece.toRun - 2;
    const wanted = Array.from({ length: 100 }, (_x, k) => k).filter(within);
    expect([...seen].sort((a, b) => a - b)).toEqual(wanted);
  });

  it('bears numbers: a piece with a long tick that has room holds more than one without', () => {
    const plain = (fromRun: number) => {
      const p = { ...straight, fromRun, toRun: fromRun + pathLength(straight.path) };
      return meshVolume(make(p, jigWith({ scale: 'mm' })).part.mesh);
    };
    // 12 ticks each; with a long one and its number at 150 in the first, at 1 mm from either end in the second
    expect(plain(90)).not.toBeCloseTo(plain(100), 0);
  });
});

/** Running length of the nearest point of the centreline, by search and bisection. */
function nearestRun(piece: PrintedSpan, p: Vec3): number {
  const whole = pathLength(piece.path);
  const far = (run: number) => length(sub(headingAt(piece.path, run).point, p));
  let best = 0;
  for (let run = 0; run <= whole; run += 2) if (far(run) < far(best)) best = run;
  let [low, high] = [Math.max(0, best - 2), Math.min(whole, best + 2)];
  for (let i = 0; i < 50; i++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (far(a) < far(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
}

describe('cut line', () => {
  it('takes the edge off where the steel is cut and nowhere else', () => {
    const jig = jigWith({ marks: true });
    const edge = (piece: PrintedSpan) => {
      const { world } = make(piece, jig, [0, 0]);
      const { point, direction } = endOf(piece.path);
      const rod = (at: number) =>
        placed(
          bar(0.05, -CUT_LINE, -0.02),
          frameOf(along(point, rotateAbout(piece.endNormal, direction, 2.5), at), direction, piece.endNormal),
        );
      return overlapVolume(world, rod(OD / 2 - 0.15)) / volumeOf(rod(0));
    };
    expect(edge({ ...straight, endsAtCut: true })).toBeLessThan(0.25);
    expect(edge({ ...straight, endsAtCut: false })).toBeGreaterThan(0.9);
  });

  it('and the clocking line runs into the joint at the carried normal', () => {
    const { world } = make(bend, jigWith({ marks: true }));
    for (const [at, n, into] of [
      [startOf(bend.path), bend.startNormal, 1],
      [endOf(bend.path), bend.endNormal, -1],
    ] as const) {
      const nick = (turn: number) =>
        placed(
          bar(0.1, 0.1, 0.5),
          frameOf(
            along(along(at.point, at.direction, 3 * into), rotateAbout(n, at.direction, turn), OD / 2 - 0.65),
            rotateAbout(n, at.direction, turn),
            at.direction,
          ),
        );
      // the carried normal may lie under the foot of a lying bend, where skin is gone anyway
      expect(overlapVolume(world, nick(0))).toBeLessThan(0.001);
    }
  });
});

describe('any dummy tube', () => {
  it('is one closed body whatever its size, bend, joint and bore', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 16, max: 76, noNaN: true }),
        fc.double({ min: 1, max: 2, noNaN: true }),
        fc.double({ min: 0.1, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.constantFrom('press', 'slide', 'screw'),
        fc.boolean(),
        fc.boolean(),
        (od, tight, angle, leg, joint, isHollow, hasCord) => {
          const clr = od * tight;
          const segments = [
            ...(leg > 0.1
              ? [{ kind: 'straight' as const, from: [0, 0, -leg] as Vec3, direction: [0, 0, 1] as Vec3, length: leg }]
              : []),
            {
              kind: 'bend' as const,
              from: [0, 0, 0] as Vec3,
              direction: [0, 0, 1] as Vec3,
              centre: [clr, 0, 0] as Vec3,
              normal: [0, 1, 0] as Vec3,
              clr,
              angle,
            },
          ];
          const path = { segments };
          const startNormal: Vec3 = [Math.cos(leg), Math.sin(leg), 0];
          const piece = {
            ...bend,
            od,
            path,
            startNormal,
            endNormal: carryNormal(path, startNormal),
            toRun: bend.fromRun + pathLength(path),
          };
          const jig = jigWith({
            joint,
            tubeWall: isHollow ? 2 : null,
            cord: hasCord && od > 16 ? Math.max(1, Math.min(5, od / 5 - 2)) : null,
            scale: 'mm',
            marks: true,
            chamfer: 0.4,
            bed: [2000, 2000, 2000],
          });
          const keyRoom = pathLength(path) > 3 * od ? 10 : 0;
          const { part } = make(piece, jig, [keyRoom, 10]);
          expect(meshFaults(part.mesh, { bodies: 1 })).toEqual([]);
        },
      ),
      { numRuns: 25 },
    );
  }, 60_000);
});
