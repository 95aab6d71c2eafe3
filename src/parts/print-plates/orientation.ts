import { type Frame, frameAlong, WORLD } from '../../geometry/frame.js';
import type { Mesh } from '../../geometry/mesh.js';
import { cornersOf, meshBounds, triangleCount } from '../../geometry/mesh-measure.js';
import { type Stand, standOf } from '../../geometry/mesh-stand.js';
import { evaluate, hull, solidOf } from '../../geometry/solid.js';
import { add, cross, dot, length, scale, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { JigPlan } from '../../params/plan.js';
import { placedMesh, tooBigFor } from '../printed-part.js';

/** A way to lay a part on the bed: frame, in the mesh's coordinates, whose z points up when printed; and how it stands so. */
export interface Orientation {
  readonly up: Frame;
  readonly stand: Stand;
}

/** Faces of the hull whose directions differ by less than this, rad, are one. */
const ONE_FACE = 0.01;

/** Most faces tried, the largest first. */
const MOST_FACES = 12;

/**
 * How a part prints with the least overhang: of the ways it lies on a flat face of its convex hull, and the way it lies now,
 * the one with least overhang of those that fit the bed, stand on at least the plan's least foot and do not tip. Where the
 * overhang is the same the way it lies now is kept; so it is where no way stands.
 */
export function bestOrientation(mesh: Mesh, { bed, print }: Pick<JigPlan, 'bed' | 'print'>): Orientation {
  const ways = [WORLD, ...hullFaces(mesh).map((down) => frameAlong([0, 0, 0], scale(down, -1)))];
  const [now, ...others] = ways.map((up) => {
    const lying = onBed(mesh, up);
    const { low, high } = meshBounds(lying);
    return { up, stand: standOf(lying, print.overhang), fits: tooBigFor(sub(high, low), bed) === null };
  });
  const sound = [now!, ...others].filter((w) => w.fits && w.stand.foot >= print.leastFoot && w.stand.steady > 0);
  const best = sound.reduce((a, b) => (b.stand.overhang < a.stand.overhang - 1 ? b : a), sound[0] ?? now!);
  return { up: best.up, stand: best.stand };
}

/** The mesh turned so that the frame's z is up, lowest on z = 0. */
function onBed(mesh: Mesh, up: Frame): Mesh {
  const inverse: Frame = {
    origin: [0, 0, 0],
    x: [up.x[0], up.y[0], up.z[0]],
    y: [up.x[1], up.y[1], up.z[1]],
    z: [up.x[2], up.y[2], up.z[2]],
  };
  const turned = placedMesh(mesh, inverse);
  const low = meshBounds(turned).low[2];
  return { ...turned, positions: turned.positions.map((v, i) => (i % 3 === 2 ? v - low : v)) };
}

/** Outward directions of the largest flat faces of the convex hull, weighed by area: those of slivers alone are inexact. */
function hullFaces(mesh: Mesh): Vec3[] {
  const skin = evaluate(hull(solidOf(mesh)));
  const normals = Array.from({ length: triangleCount(skin) }, (_, t): Vec3 => {
    const [a, b, c] = cornersOf(skin, t);
    return cross(sub(b, a), sub(c, a));
  });
  normals.sort((a, b) => length(b) - length(a));
  const faces: Vec3[] = [];
  for (const normal of normals) {
    const same = faces.findIndex((f) => dot(f, normal) > Math.cos(ONE_FACE) * length(f) * length(normal));
    if (same < 0) faces.push(normal);
    else faces[same] = add(faces[same]!, normal);
  }
  return faces
    .sort((a, b) => length(b) - length(a))
    .slice(0, MOST_FACES)
    .map(unit);
}
