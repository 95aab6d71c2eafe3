import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stlBytes } from '../../../src/export/print/stl.js';
import { radians } from '../../../src/geometry/angle.js';
import { directionFrom, frameFrom, pointFrom, pointInto } from '../../../src/geometry/frame.js';
import { cornersOf, meshVolume, triangleCount } from '../../../src/geometry/mesh/measure.js';
import { asStlReaderSees, meshFaults } from '../../../src/geometry/mesh/validate.js';
import {
  bodiesOf,
  difference,
  overlapVolume,
  placed,
  solidOf,
  trimmed,
  union,
  volumeOf,
} from '../../../src/geometry/solid/solid.js';
import { bar } from '../../../src/geometry/solid/solid-shapes.js';
import { cross, distance, dot, length, sub, unit, type Vec3 } from '../../../src/geometry/vec3.js';
import { collectorAids } from '../../../src/parts/collector/aids.js';
import { type Collector, collectorOf } from '../../../src/parts/collector/collector.js';
import { cradleHeight, mergeGauge } from '../../../src/parts/collector/merge-gauge.js';
import { closedAt, touchingAt } from '../../../src/parts/collector/merge-ring.js';
import { collectorPieces, cutsAlong, frontOf } from '../../../src/parts/collector/pieces.js';
import { sawBlock, sawBlocks } from '../../../src/parts/collector/saw-block.js';
import { tiltedTube } from '../../../src/parts/collector/solid.js';
import type { SolidPart } from '../../../src/parts/part.js';
import { JIG, mergePlan, SLIP, TUBE, VENTURI } from '../../support/merge-plan.js';

const collector = (inlets: number, change: Parameters<typeof mergePlan>[1] = {}): Collector =>
  collectorOf(mergePlan(inlets, change), TUBE, JIG.bed, 'merge');

/** Corners of a part where it stands in the world. */
function corners({ mesh, pose }: SolidPart): Vec3[] {
  const points: Vec3[] = [];
  for (let i = 0; i < mesh.positions.length; i += 3) {
    points.push(pointFrom(pose, [mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!]));
  }
  return points;
}

/** Normals of a part's triangles in the world with their areas. */
function faces({ mesh, pose }: SolidPart): { normal: Vec3; area: number; at: Vec3 }[] {
  return Array.from({ length: triangleCount(mesh) }, (_, t) => {
    const [a, b, c] = cornersOf(mesh, t);
    const n = cross(sub(b, a), sub(c, a));
    return { normal: directionFrom(pose, unit(n)), area: length(n) / 2, at: pointFrom(pose, a) };
  });
}

const sound = (part: SolidPart): void => {
  expect(meshFaults(part.mesh, { bodies: 1 }), part.name).toEqual([]);
  expect(meshFaults(asStlReaderSees(part.mesh), { bodies: 1 }), part.name).toEqual([]);
  expect(meshVolume(part.mesh)).toBeGreaterThan(1000);
  expect(stlBytes(part.mesh, part.name).length).toBeGreaterThan(84);
};

describe('gauge of the merge', () => {
  for (const inlets of [2, 3, 4, 5, 6]) {
    it(`holds ${inlets} tubes at the frames of the inlets`, () => {
      const c = collector(inlets, { inletGap: 4 });
      const [gauge] = mergeGauge(c, JIG);
      sound(gauge!);
      expect(gauge!.tooBig).toBeNull();
      const points = corners(gauge!);
      const body = placed(solidOf(gauge!.mesh), gauge!.pose);
      const radius = TUBE.od / 2 + JIG.fit;
      for (const frame of c.geometry.cuts.map((cut) => frameFrom(c.plan.frame, cut.frame))) {
        // the tube itself goes in, ends on its seat, and one a little larger does not
        expect(overlapVolume(body, placed(bar(TUBE.od / 2, 0.01, 30), frame))).toBeLessThan(0.5);
        expect(overlapVolume(body, placed(bar(TUBE.od / 2 + 0.6, 2, 8), frame))).toBeGreaterThan(1);
        const seat = placed(bar(TUBE.od / 2, -0.5, -0.01), frame);
        expect(overlapVolume(body, seat) / volumeOf(seat)).toBeGreaterThan(0.95);
        // it comes in from outside, square to its axis
        const outwards = [5, 20, 60].map((d) =>
          placed(bar(TUBE.od / 2, 0.01, 30), { ...frame, origin: pointFrom(frame, [d, 0, 0.9]) }),
        );
        for (const tube of outwards) expect(overlapVolume(body, tube)).toBeLessThan(0.5);
        // corners of the cradle lie on the cylinder about the inlet's axis, to the printing grid, over half a round
        const on = points
          .map((p) => pointInto(frame, p))
          .filter((p) => {
            return p[0] < 0.01 && p[2] > 0.5 && Math.abs(Math.hypot(p[0], p[1]) - radius) < 1e-3;
          });
        expect(on.length).toBeGreaterThan(10);
        const turns = on.map((p) => Math.atan2(p[1], -p[0]));
        expect(Math.max(...turns)).toBeGreaterThan(radians(60));
        expect(Math.min(...turns)).toBeLessThan(radians(-60));
      }
      // stands as high as said over the inlet plane
      const heights = points.map((p) => pointInto(c.plan.frame, p)[2]);
      expect(Math.max(...heights)).toBeCloseTo(cradleHeight(c.geometry), 2);
    });
  }

  it('is one body for tubes that touch, too, and there is none for a single inlet', () => {
    for (const inlets of [2, 3, 6]) sound(mergeGauge(collector(inlets, { inletGap: 0 }), JIG)[0]!);
    expect(mergeGauge(collector(1), JIG)).toEqual([]);
  });
});

describe('saw block', () => {
  for (const inlets of [2, 3, 4, 5, 6]) {
    it(`has its guide faces in the cut planes of ${inlets} inlets`, () => {
      const c = collector(inlets, { inletGap: 4 });
      const [block] = sawBlocks(c, JIG);
      sound(block!);
      const { planes, angle, frame } = c.geometry.cuts[0]!;
      const made = sawBlock(c.geometry, c.geometry.cuts[0]!, JIG.fit)!;
      expect(made.faces).toHaveLength(inlets === 2 ? 1 : 2);
      for (const face of made.faces) expect(Math.asin(Math.abs(face.normal[2]))).toBeCloseTo(angle, 9);
      const all = faces(block!);
      for (const plane of planes) {
        const normal = directionFrom(c.plan.frame, plane.normal);
        const axis = directionFrom(c.plan.frame, frame.z);
        // the saw's face looks away from the block
        const guide = all.filter((f) => dot(f.normal, normal) < -1 + 1e-8 && f.area > 1);
        expect(guide.reduce((s, f) => s + f.area, 0)).toBeGreaterThan(300);
        // the points of a print stand on a grid of 2.4e-4 mm; needles' own normals mean little, their weighted mean does
        const mean = unit(
          guide.reduce((sum, f): Vec3 => [0, 1, 2].map((k) => sum[k]! + f.normal[k]! * f.area) as unknown as Vec3, [
            0, 0, 0,
          ] as Vec3),
        );
        expect(Math.abs(Math.asin(Math.abs(dot(mean, axis))) - angle)).toBeLessThan(1e-5);
        for (const f of guide) {
          const off = dot(normal, sub(f.at, pointFrom(c.plan.frame, plane.point)));
          expect(Math.abs(off)).toBeLessThan(5e-4);
        }
      }
      // the tube goes through it, and its foot is level: square to the way out of the collector
      const inlet = frameFrom(c.plan.frame, frame);
      const body = placed(solidOf(block!.mesh), block!.pose);
      expect(overlapVolume(body, placed(bar(TUBE.od / 2, Math.max(0.01, made.from), made.to), inlet))).toBeLessThan(
        0.5,
      );
      expect(overlapVolume(body, placed(bar(TUBE.od / 2 + 0.6, made.from, made.to), inlet))).toBeGreaterThan(50);
      const foot = all.filter((f) => dot(f.normal, inlet.x) > 1 - 1e-8).reduce((s, f) => s + f.area, 0);
      expect(foot).toBeGreaterThan(800);
      expect(block!.title).toContain(`${inlets} tubes`);
      expect(block!.title).toContain(`${((angle * 180) / Math.PI).toFixed(2)} deg`);
    });
  }

  it('leaves of the tube what its planes leave: the cut tube fits the block, its rest stands out', () => {
    const c = collector(4, { inletGap: 4 });
    const [block] = sawBlocks(c, JIG);
    const { planes, frame, toe } = c.geometry.cuts[0]!;
    const tube = tiltedTube(frame, TUBE.od / 2, 0, toe! + 10);
    const body = placed(placed(solidOf(block!.mesh), block!.pose), {
      // into the collector's frame
      origin: pointInto(c.plan.frame, [0, 0, 0]),
      x: [c.plan.frame.x[0], c.plan.frame.y[0], c.plan.frame.z[0]],
      y: [c.plan.frame.x[1], c.plan.frame.y[1], c.plan.frame.z[1]],
      z: [c.plan.frame.x[2], c.plan.frame.y[2], c.plan.frame.z[2]],
    });
    const kept = planes.reduce((s, plane) => trimmed(s, plane), tube);
    expect(volumeOf(kept)).toBeLessThan(volumeOf(tube) * 0.9);
    // nothing of the block lies beyond the planes
    for (const plane of planes) {
      const beyond = trimmed(body, {
        point: plane.point,
        normal: [-plane.normal[0], -plane.normal[1], -plane.normal[2]],
      });
      expect(volumeOf(beyond)).toBeLessThan(1);
    }
  });

  it('begins a grip before the heel, or where the tube does, and ends beyond the toe', () => {
    for (const half of [5, 10, 20]) {
      const c = collector(4, { mergeHalfAngle: radians(half), inletGap: 12 });
      const { heel, toe } = c.geometry.cuts[0]!;
      const made = sawBlock(c.geometry, c.geometry.cuts[0]!, 0.2)!;
      expect(made.from).toBe(heel! - 25);
      expect(made.to).toBeGreaterThan(toe!);
    }
    expect(sawBlocks(collector(1), JIG)).toEqual([]);
  });

  it('has a stop at the inlet end of a tube that is cut from its end on', () => {
    const c = collector(3, { inletGap: 0 });
    const [block] = sawBlocks(c, JIG);
    sound(block!);
    expect(block!.title).toContain('on the stop');
    const inlet = frameFrom(c.plan.frame, c.geometry.cuts[0]!.frame);
    const body = placed(solidOf(block!.mesh), block!.pose);
    expect(overlapVolume(body, placed(bar(TUBE.od / 2, 0.01, 40), inlet))).toBeLessThan(0.5);
    // a ring of the tube's wall, pushed on by half a millimetre, meets plastic all round
    const ring = difference(bar(TUBE.od / 2 - 0.1, -0.5, -0.01), bar(TUBE.od / 2 - 2, -1, 1));
    expect(overlapVolume(body, placed(ring, inlet)) / volumeOf(ring)).toBeGreaterThan(0.98);
  });
});

describe('collector too large for the bed', () => {
  for (const [title, c] of [
    ['four into one', collector(4)],
    ['a venturi with sleeves and a spike', collector(5, { outlet: VENTURI, slip: SLIP, centre: 'spike' })],
    [
      'with a branch',
      collector(3, {
        outlet: { ...VENTURI, tail: 120 },
        branch: { od: 30, wall: 1.6, angle: radians(45), at: 290, clocking: 1, length: 80, on: 'tail' },
      }),
    ],
    ['one inlet', collector(1, { outlet: { ...VENTURI, tail: 200 } })],
  ] as const) {
    it(`${title}: pieces that fit, each one body, and together are the whole`, () => {
      expect(c.part.tooBig).not.toBeNull();
      const pieces = collectorPieces(c, JIG);
      expect(pieces.length).toBeGreaterThan(1);
      for (const p of pieces) {
        sound(p);
        expect(p.tooBig, p.name).toBeNull();
      }
      const whole = placed(solidOf(c.part.mesh), c.part.pose);
      const together = union(...pieces.map((p) => placed(solidOf(p.mesh), p.pose)));
      // nothing of the whole is missing but the thickness of a joint, and the pieces do not overlap
      expect(overlapVolume(whole, together) / volumeOf(whole)).toBeGreaterThan(0.999);
      for (const [i, p] of pieces.entries()) {
        const next = pieces[i + 1];
        if (next === undefined) continue;
        const pair = [p, next].map((q) => placed(solidOf(q.mesh), q.pose));
        // the pins stand in their holes with the fit of the plan; the faces meet
        expect(overlapVolume(pair[0]!, pair[1]!)).toBeLessThan(2);
      }
      expect(bodiesOf(together)).toBeGreaterThanOrEqual(1);
    }, 30_000);
  }

  it('is cut as seldom as can be, clear of the branch, in pieces no longer than the bed allows', () => {
    const { geometry: g } = collector(4, { outlet: { ...VENTURI, tail: 300 } });
    // between these the walls between the bores hang by their inlet end alone
    const [touch, closed] = [touchingAt(g, g.bore), closedAt(g, g.bore)];
    for (const height of [150, 210, 300]) {
      const cuts = cutsAlong(g, height)!;
      const ends = [frontOf(g), ...cuts, g.totalLength];
      for (let i = 1; i < ends.length; i++) expect(ends[i]! - ends[i - 1]!).toBeLessThanOrEqual(height - 7);
      for (const z of cuts) expect(z < touch || z > closed).toBe(true);
      expect(cuts.length).toBe(Math.ceil((g.totalLength - frontOf(g)) / (height - 7)) - 1);
    }
    expect(cutsAlong(g, 20)).toBeNull();
  });

  it('makes no pieces when it fits', () => {
    expect(collectorPieces(collector(4), { ...JIG, bed: [250, 250, 400] })).toEqual([]);
  });
});

describe('all that is printed beside a collector', () => {
  it('has names of its own and goes to the folder of the collector', () => {
    const parts = collectorAids(collector(4), JIG);
    expect(new Set(parts.map((p) => p.name)).size).toBe(parts.length);
    expect(parts.map((p) => p.kind)).toEqual(['collector-piece', 'collector-piece', 'merge-gauge', 'saw-block']);
    for (const p of parts) expect(distance(p.pose.z, unit(p.pose.z))).toBeLessThan(1e-12);
  });

  it('is sound for random merges', () => {
    const sizes = fc.record({
      inlets: fc.integer({ min: 2, max: 6 }),
      half: fc.double({ min: 4, max: 25, noNaN: true }),
      gap: fc.double({ min: 0, max: 20, noNaN: true }),
      od: fc.double({ min: 25, max: 76, noNaN: true }),
    });
    fc.assert(
      fc.property(sizes, ({ inlets, half, gap, od }) => {
        const plan = mergePlan(inlets, {
          mergeHalfAngle: radians(half),
          inletGap: gap,
          outlet: { od: 1.5 * od, wall: 1.5, coneLength: 90, tail: 60, throat: null },
        });
        const c = collectorOf(plan, { od, wall: 1.5 }, JIG.bed, 'random');
        for (const part of collectorAids(c, JIG)) expect(meshFaults(part.mesh, { bodies: 1 }), part.name).toEqual([]);
      }),
      { numRuns: 8, endOnFailure: true },
    );
  }, 120_000);
});
