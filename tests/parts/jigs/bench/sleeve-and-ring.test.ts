import { describe, expect, it } from 'vitest';
import { pointOf } from '../../../../src/geometry/mesh/measure.js';
import { endOf, headingAt, startOf } from '../../../../src/geometry/path/path.js';
import { heightAbove } from '../../../../src/geometry/plane.js';
import { minGap, overlapVolume, placed, type Solid, solidOf, union } from '../../../../src/geometry/solid/solid.js';
import { sweepRound } from '../../../../src/geometry/sweep/sweep.js';
import { along, angleBetween, cross, dot, rotateAbout, sub, unit, type Vec3 } from '../../../../src/geometry/vec3.js';
import { clockedJoints, clockingRings } from '../../../../src/parts/jigs/bench/clocking-ring.js';
import { linedPieces } from '../../../../src/parts/jigs/bench/reference-line.js';
import { scribingSleeves } from '../../../../src/parts/jigs/bench/scribing-sleeve.js';
import { flangeFace } from '../../../../src/parts/jigs/tube-jigs.js';
import type { SolidPart } from '../../../../src/parts/part.js';
import { placedMesh } from '../../../../src/parts/printed-part.js';
import { cylinderOf, piecesOf } from '../../../../src/parts/tube/pieces.js';
import type { RoutedTube } from '../../../../src/routing/routed.js';
import { BENCH, withBench } from '../../../support/bench-plan.js';
import { steppedPair } from '../../../support/stepped-pair.js';

const { plan: bare, primaries, secondaries } = steppedPair();
const plan = withBench(bare);
const tubes: readonly RoutedTube[] = [...primaries, ...secondaries];
const solidOfPart = (p: SolidPart): Solid => placed(solidOf(p.mesh), p.pose);
const vertices = (p: SolidPart): Vec3[] => {
  const mesh = placedMesh(p.mesh, p.pose);
  return Array.from({ length: mesh.positions.length / 3 }, (_, i) => pointOf(mesh, i));
};

/** Points of printed parts stand on a grid of 2^-12 mm. */
const GRID = 2 ** -12;

const sleeved = tubes.flatMap((tube) =>
  piecesOf(plan, tube).map((piece) => ({ piece, face: piece.first ? flangeFace(plan, cylinderOf(tube)) : null })),
);
const { parts: sleeves } = scribingSleeves(sleeved, plan.jig);

describe('scribing sleeves', () => {
  const bends = sleeved.filter((s) => s.piece.kind === 'bend');

  it('come in pairs, one for all pieces of one size', () => {
    expect(sleeves.length % 2).toBe(0);
    expect(sleeves.length).toBeLessThanOrEqual(2 * bends.length);
    for (const { piece } of bends) {
      const titles = sleeves.filter((s) => new RegExp(`pieces? [^:]*\\b${piece.name}\\b`).test(s.title));
      expect(titles.length, piece.name).toBe(2);
    }
    const twice = scribingSleeves([...bends, ...bends], plan.jig).parts;
    expect(twice.length).toBe(sleeves.length);
  });

  it('end in the planes of the cuts: no point beyond either, many points in each', () => {
    for (const s of sleeves) {
      const { piece, face } = bends.find((b) => `sleeve-${b.piece.file}` === s.name.replace(/-\d$/, ''))!;
      const [start, end] = [startOf(piece.path), endOf(piece.path)];
      const cuts = [
        face ?? { point: start.point, normal: start.direction },
        { point: end.point, normal: [-end.direction[0], -end.direction[1], -end.direction[2]] as Vec3 },
      ];
      for (const cut of cuts) {
        // a bend of more than half a turn comes round behind its own start: judge the points near the cut alone
        const near = vertices(s).filter(
          (p) => Math.abs(heightAbove(cut, p)) < 0.5 && Math.hypot(...sub(p, cut.point)) < piece.od,
        );
        expect(near.length, s.name).toBeGreaterThan(20);
        for (const p of near) expect(heightAbove(cut, p), s.name).toBeGreaterThan(-2 * GRID);
        expect(near.filter((p) => Math.abs(heightAbove(cut, p)) < 2 * GRID).length).toBeGreaterThan(20);
      }
    }
  });

  it('fit the tube with the fit all round, and come off to the side they lie on', () => {
    for (const s of sleeves) {
      const { piece } = bends.find((b) => `sleeve-${b.piece.file}` === s.name.replace(/-\d$/, ''))!;
      const tube = solidOf(sweepRound(piece.path, piece.od / 2));
      const gap = minGap(solidOfPart(s), tube, 2);
      expect(gap, s.name).toBeGreaterThan(plan.jig.fit - 0.03);
      expect(gap, s.name).toBeLessThan(plan.jig.fit + 0.1);
      // printed z is the way the half shell came from: its own +z away from the tube
      for (const lift of [1, 5, 20]) {
        const off = { origin: along([0, 0, 0], s.pose.z, lift), x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] } as const;
        expect(overlapVolume(placed(solidOfPart(s), off), tube), s.name).toBe(0);
      }
    }
  });
});

describe('clocking of the joints', () => {
  it('takes the outside line of every bend, and carries it over straights', () => {
    for (const tube of tubes) {
      const pieces = linedPieces(plan, tube);
      for (const [i, { piece, startLine, endLine }] of pieces.entries()) {
        expect(Math.abs(dot(startLine, startOf(piece.path).direction))).toBeLessThan(1e-9);
        expect(Math.abs(dot(endLine, endOf(piece.path).direction))).toBeLessThan(1e-9);
        const bend = piece.path.segments.find((s) => s.kind === 'bend');
        if (bend) {
          const out = unit(sub(bend.from, bend.centre));
          expect(angleBetween(startLine, out)).toBeLessThan(1e-9);
        } else if (i > 0) expect(angleBetween(startLine, pieces[i - 1]!.endLine)).toBeLessThan(1e-9);
      }
    }
  });

  it('is the turn from line to line, right-handed along the gas', () => {
    for (const tube of tubes) {
      for (const joint of clockedJoints(plan, tube)) {
        const turned = rotateAbout(joint.before.endLine, joint.direction, joint.clocking);
        expect(angleBetween(turned, joint.after.startLine), joint.name).toBeLessThan(1e-9);
      }
    }
    expect(clockedJoints(plan, tubes[0]!).map((j) => j.name)[0]).toBe('J1.1');
  });
});

describe('clocking rings', () => {
  const made = tubes.map((tube, i) => ({ tube, ...clockingRings(plan, tube, String(i), BENCH) }));

  it('notch either piece at its line: the deepest corners of the notches are turned by the clocking', () => {
    for (const { tube, parts } of made) {
      for (const [, part] of parts.entries()) {
        const joint = clockedJoints(plan, tube).find((j) => part.title.includes(`joint ${j.name},`))!;
        const reach = (run: number) => headingAt(tube.path, joint.after.piece.fromRun + run);
        // window of 13 mm and collar of 8 mm, less where a piece is short: the notch is 5 mm deep from the ring's ends
        const window = Number(/([\d.]+) mm free/.exec(part.title)![1]);
        const shortest = Math.min(...[joint.before, joint.after].map((l) => l.piece.toRun - l.piece.fromRun));
        const end = Math.min(21, shortest - 1);
        expect(window).toBeCloseTo(end - 8, 0);
        for (const [side, line] of [
          [-1, joint.before.endLine],
          [1, joint.after.startLine],
        ] as const) {
          const { point, direction } = reach(side * end);
          const carried = carriedFrom(tube, joint.after.piece.fromRun, side * end, line);
          const apexes = vertices(part).filter(
            (p) =>
              Math.abs(dot(sub(p, point), direction) * -side - 5) < 2 * GRID &&
              turnOf(p, point, direction, carried) < 0.01,
          );
          expect(apexes.length, `${part.name} ${side}`).toBeGreaterThanOrEqual(2);
          for (const p of apexes)
            expect(turnOf(p, point, direction, carried)).toBeLessThan((2 * GRID) / (joint.after.piece.od / 2));
        }
      }
    }
  });

  it('leave the joint open and touch no tube', () => {
    for (const { tube, parts } of made) {
      const steel = union(...piecesOf(plan, tube).map((p) => solidOf(sweepRound(p.path, p.od / 2))));
      for (const part of parts) {
        const gap = minGap(solidOfPart(part), steel, 2);
        expect(gap, part.name).toBeGreaterThan(plan.jig.fit - 0.03);
        const joint = clockedJoints(plan, tube).find((j) => part.title.includes(`joint ${j.name},`))!;
        const { point, direction } = joint;
        const od = Math.max(joint.before.piece.od, joint.after.piece.od);
        const weld = solidOf(
          sweepRound(
            { segments: [{ kind: 'straight', from: along(point, direction, -2), direction, length: 4 }] },
            od / 2 + 2,
          ),
        );
        expect(overlapVolume(solidOfPart(part), weld), part.name).toBe(0);
      }
    }
  });

  it('are left out, with a note, where a piece is too short', () => {
    const { notes } = clockingRings(plan, tubes[0]!, 'x', BENCH);
    const pieces = piecesOf(plan, tubes[0]!);
    const short = pieces
      .slice(1)
      .filter((p, i) => Math.min(p.toRun - p.fromRun, pieces[i]!.toRun - pieces[i]!.fromRun) < 15);
    expect(notes.length).toBe(short.length);
  });
});

/** Angle of a point about a tube's axis from a line, rad. */
function turnOf(p: Vec3, point: Vec3, direction: Vec3, line: Vec3): number {
  const off = sub(p, point);
  const across = along(off, direction, -dot(off, direction));
  return Math.abs(Math.atan2(dot(cross(line, across), direction), dot(line, across)));
}

/** A line at a joint carried along the tube by small turns: the normal keeps square to it. */
function carriedFrom(tube: RoutedTube, run: number, by: number, line: Vec3): Vec3 {
  let n = line;
  const steps = 4000;
  for (let i = 1; i <= steps; i++) {
    const { direction } = headingAt(tube.path, run + (by * i) / steps);
    n = unit(along(n, direction, -dot(n, direction)));
  }
  return n;
}
