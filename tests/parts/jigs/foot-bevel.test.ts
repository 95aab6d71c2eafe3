import { describe, expect, it } from 'vitest';
import { pointFrom, pointInto } from '../../../src/geometry/frame.js';
import { meshVolume, pointOf } from '../../../src/geometry/mesh/measure.js';
import { meshFaults } from '../../../src/geometry/mesh/validate.js';
import { pathFromPolygon } from '../../../src/geometry/path/control-polygon.js';
import { endOf, startOf } from '../../../src/geometry/path/path.js';
import { dot, sub, unit, type Vec3 } from '../../../src/geometry/vec3.js';
import { dummyTube, FOOT } from '../../../src/parts/jigs/dummy-tube.js';
import { keyFor } from '../../../src/parts/jigs/key.js';
import type { SolidPart } from '../../../src/parts/part.js';
import { jigWith } from '../../support/jig-fixture.js';
import { madeSpan } from '../../support/made-span.js';

const OD = 42.4;
const CHAMFER = 0.4;
const key = keyFor(OD, 0.2);

function made(points: readonly Vec3[], clr: readonly number[], chamfer: number, tilt: Vec3 | null = null): SolidPart {
  const piece = madeSpan(points, clr);
  const face = tilt === null ? null : { point: points[0]!, normal: tilt };
  const end = { key, length: 10, screw: null };
  return dummyTube({ piece, start: end, end, face, jig: jigWith({ chamfer }) });
}

const BEND: readonly Vec3[] = [
  [0, 0, 0],
  [0, 100, 0],
  [60, 160, 40],
];
const STRAIGHT: readonly Vec3[] = [
  [0, 0, 0],
  [20, 70, 80],
];

/** Least distance of what lies on the bed from a plane of the world it all lies on one side of, mm. */
function fromPlane(part: SolidPart, point: Vec3, into: Vec3): number {
  const { positions } = part.mesh;
  const far: number[] = [];
  for (let i = 0; i < positions.length / 3; i++) {
    const p = pointOf(part.mesh, i);
    if (p[2] < 1e-3) far.push(dot(sub(pointFrom(part.pose, p), point), into));
  }
  return Math.min(...far);
}

describe('first layers of a dummy tube', () => {
  const path = pathFromPolygon({ points: BEND, clr: [63.5] });
  const [start, end] = [startOf(path), endOf(path)];
  const back: Vec3 = [-end.direction[0], -end.direction[1], -end.direction[2]];

  it('stand back from both end faces of one that lies', () => {
    const part = made(BEND, [63.5], CHAMFER);
    expect(meshFaults(part.mesh, { bodies: 1 })).toEqual([]);
    expect(fromPlane(part, start.point, start.direction)).toBeCloseTo(CHAMFER, 2);
    expect(fromPlane(part, end.point, back)).toBeCloseTo(CHAMFER, 2);
    const plain = made(BEND, [63.5], 0);
    expect(fromPlane(plain, start.point, start.direction)).toBeCloseTo(0, 2);
    // a triangle of the chamfer's size across the flat at either end, a little wider at its top
    const width = 2 * Math.sqrt((OD / 2) ** 2 - (OD / 2 - FOOT) ** 2);
    const gone = (meshVolume(plain.mesh) - meshVolume(part.mesh)) / (CHAMFER ** 2 * width);
    expect(gone).toBeGreaterThan(0.95);
    expect(gone).toBeLessThan(1.35);
  });

  it('stand back from a tilted face too', () => {
    const normal = unit([0.1, 1, 0.15]);
    const part = made(BEND, [63.5], CHAMFER, normal);
    expect(meshFaults(part.mesh, { bodies: 1 })).toEqual([]);
    expect(fromPlane(part, BEND[0]!, normal)).toBeGreaterThan(0.9 * CHAMFER);
  });

  it('stand back from the rim and from the socket of one that stands', () => {
    const part = made(STRAIGHT, [], CHAMFER);
    const { point, direction } = startOf(pathFromPolygon({ points: STRAIGHT, clr: [] }));
    const away: number[] = [];
    for (let i = 0; i < part.mesh.positions.length / 3; i++) {
      const p = pointOf(part.mesh, i);
      if (p[2] > 1e-3) continue;
      const q = sub(pointFrom(part.pose, p), point);
      expect(Math.abs(dot(q, direction))).toBeLessThan(1e-3);
      away.push(Math.hypot(...q));
    }
    expect(Math.max(...away)).toBeCloseTo(OD / 2 - CHAMFER, 2);
    // the nearest corner of the mouth: its flat, drawn back by the fit and the chamfer
    expect(Math.min(...away)).toBeGreaterThan(key.flat + key.fit + CHAMFER - 0.01);
    expect(meshVolume(part.mesh)).toBeLessThan(meshVolume(made(STRAIGHT, [], 0).mesh));
    expect(pointInto(part.pose, point)[2]).toBeCloseTo(0, 3);
  });

  it('are the same outline as ever higher up: joints meet on their whole faces', () => {
    const part = made(BEND, [63.5], CHAMFER);
    const heights: number[] = [];
    for (let i = 0; i < part.mesh.positions.length / 3; i++) {
      const p = pointOf(part.mesh, i);
      if (Math.abs(dot(sub(pointFrom(part.pose, p), start.point), start.direction)) < 1e-3) heights.push(p[2]);
    }
    expect(Math.min(...heights)).toBeCloseTo(CHAMFER, 2);
    expect(Math.max(...heights)).toBeCloseTo(OD - FOOT, 1);
  });
});
