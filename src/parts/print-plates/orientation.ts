import { type Frame, frameAlong, WORLD } from '../../geometry/frame.js';
import type { Mesh } from '../../geometry/mesh.js';
import { cornersOf, meshBounds, triangleArea, triangleCount } from '../../geometry/mesh-measure.js';
import { type Stand, standOf } from '../../geometry/mesh-stand.js';
import { evaluate, hull, solidOf } from '../../geometry/solid.js';
import { cross, dot, scale, sub, unit, type Vec3 } from '../../geometry/vec3.js';
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
  const now: Orientation = { up: WORLD, stand: standOf(onBed(mesh, WORLD), print.overhang) };
  const stands = hullFaces(mesh).flatMap((down): Orientation[] => {
    const up = frameAlong([0, 0, 0], scale(down, -1));
    const lying = onBed(mesh, up);
    const { low, high } = meshBounds(lying);
    if (tooBigFor(sub(high, low), bed) !== null) return [];
    return [{ up, stand: standOf(lying, print.overhang) }];
  });
  const holds = ({ stand }: Orientation): boolean => stand.foot >= print.leastFoot && stand.steady > 0;
  const sound = [now, ...stands].filter(holds);
  // a part that lies badly now may not be kept for being first
  return sound.reduce((a, b) => (b.stand.overhang < a.stand.overhang - 1 ? b : a), sound[0] ?? now);
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

/** Outward directions of the largest flat faces of the convex hull. */
function hullFaces(mesh: Mesh): Vec3[] {
  const skin = evaluate(hull(solidOf(mesh)));
  const faces: { readonly normal: Vec3; area: number }[] = [];
  for (let t = 0; t < triangleCount(skin); t++) {
    const corners = cornersOf(skin, t);
    const area = triangleArea(corners);
    if (area < 1e-6) continue;
    const [a, b, c] = corners;
    const normal = unit(cross(sub(b, a), sub(c, a)));
    const same = faces.find((f) => dot(f.normal, normal) > Math.cos(ONE_FACE));
    if (same) same.area += area;
    else faces.push({ normal, area });
  }
  return faces
    .sort((a, b) => b.area - a.area)
    .slice(0, MOST_FACES)
    .map((f) => f.normal);
}
