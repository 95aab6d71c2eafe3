import createKernel, { type CrossSection, type Manifold } from 'manifold-3d';
import { type Frame, matrixOf } from '../frame.js';
import type { Mesh } from '../mesh/mesh.js';
import type { Plane } from '../plane.js';
import type { Vec2 } from '../vec2.js';
import { dot, type Vec3 } from '../vec3.js';

/**
 * A solid as a plain expression: nothing is computed until it is evaluated. This file is the only one that knows the boolean
 * kernel (manifold-3d). The kernel's guarantee, stated here and tested: what `evaluate` returns is closed, every edge paired
 * with one running the other way. Coordinates pass through the kernel as 32-bit floats: good to 6e-5 mm at a metre, so build
 * parts about the origin and place them afterwards.
 */
export type Solid =
  | { readonly kind: 'mesh'; readonly mesh: Mesh }
  | { readonly kind: 'union' | 'intersection' | 'hull'; readonly of: readonly Solid[] }
  | { readonly kind: 'hull-of-points'; readonly points: readonly Vec3[] }
  | {
      readonly kind: 'raised';
      readonly rings: readonly (readonly Vec2[])[];
      readonly from: number;
      readonly to: number;
    }
  | { readonly kind: 'difference'; readonly from: Solid; readonly minus: readonly Solid[] }
  | { readonly kind: 'placed'; readonly solid: Solid; readonly frame: Frame }
  | { readonly kind: 'trimmed'; readonly solid: Solid; readonly plane: Plane }
  | { readonly kind: 'largest-body'; readonly solid: Solid }
  | { readonly kind: 'foot-chamfered'; readonly solid: Solid; readonly size: number };

export const solidOf = (mesh: Mesh): Solid => ({ kind: 'mesh', mesh });
export const union = (...of: readonly Solid[]): Solid => ({ kind: 'union', of });
export const intersection = (...of: readonly Solid[]): Solid => ({ kind: 'intersection', of });
/** Convex hull of all together. */
export const hull = (...of: readonly Solid[]): Solid => ({ kind: 'hull', of });
/** Convex hull of points. */
export const hullOfPoints = (points: readonly Vec3[]): Solid => ({ kind: 'hull-of-points', points });
/** What counter-clockwise rings cover together, they may overlap, between z = `from` and z = `to`: joined in the plane, which costs little. */
export const raised = (rings: readonly (readonly Vec2[])[], from: number, to: number): Solid => ({
  kind: 'raised',
  rings,
  from,
  to,
});
export const difference = (from: Solid, ...minus: readonly Solid[]): Solid => ({ kind: 'difference', from, minus });
/** The solid taken from frame coordinates to the world. */
export const placed = (solid: Solid, frame: Frame): Solid => ({ kind: 'placed', solid, frame });
/** What lies on the side of the plane its normal points to. */
export const trimmed = (solid: Solid, plane: Plane): Solid => ({ kind: 'trimmed', solid, plane });
/** The body of largest volume alone: the one explicit way to drop slivers that hang loose. */
export const largestBody = (solid: Solid): Solid => ({ kind: 'largest-body', solid });

/**
 * The solid with the outline of its lowest layers drawn in, by `size` mm at the very bottom and evenly less up to that height:
 * a chamfer of 45 degrees in steps of a printed layer of 0.2 mm. Grooves up to 2.4 mm wide in the underside, such as
 * letters, keep their edges. Walls may stand upright or lean out over the bed by 2 mm a layer.
 */
export const footChamfered = (solid: Solid, size: number): Solid => ({ kind: 'foot-chamfered', solid, size });

/** A solid that cannot be built. The status is the kernel's word for it, 'Empty' when nothing is left. */
export class SolidError extends Error {
  override readonly name = 'SolidError';
  constructor(
    readonly status: string,
    message: string,
  ) {
    super(message);
  }
}

const kernel = await createKernel();
kernel.setup();

/**
 * Builds the solid and returns its surface, with a `tolerance` in mm on fewer of its points and moved by less than that: for looking
 * at, not for making. Throws SolidError when a mesh in it is not closed or nothing is left.
 */
export function evaluate(solid: Solid, tolerance = 0): Mesh {
  return withKernel((keep) => {
    const whole = build(solid, keep);
    const m = tolerance > 0 ? keep(whole.simplify(tolerance)) : whole;
    if (m.isEmpty())
      throw new SolidError('Empty', 'the solid is empty: its parts do not meet, or everything was cut away');
    const { numProp, vertProperties, triVerts } = m.getMesh();
    if (numProp !== 3) throw new SolidError('PropertiesWrongLength', `the kernel returned ${numProp} numbers a point`);
    return { positions: Float64Array.from(vertProperties), triangles: Uint32Array.from(triVerts) };
  });
}

/** Volume, mm3; 0 when nothing is left. */
export const volumeOf = (solid: Solid): number => withKernel((keep) => build(solid, keep).volume());

/** Volume two solids share, mm3. */
export const overlapVolume = (a: Solid, b: Solid): number => volumeOf(intersection(a, b));

/** Number of bodies that do not hang together; a closed hollow inside a body counts as one more. */
export const bodiesOf = (solid: Solid): number => withKernel((keep) => build(solid, keep).decompose().map(keep).length);

/** Smallest distance between two solids, mm, 0 when they touch; never more than `within` mm, how far the search goes. */
export function minGap(a: Solid, b: Solid, within: number): number {
  return withKernel((keep) => build(a, keep).minGap(build(b, keep), within));
}

/** Volumes, mm3, that chosen pairs of many closed meshes share; every mesh is handed to the kernel once however many pairs it is in. */
export function sharedVolumes(meshes: readonly Mesh[], pairs: readonly (readonly [number, number])[]): number[] {
  return withKernel((keep) => {
    const built = new Map<number, Manifold>();
    const one = (i: number): Manifold => {
      const m = built.get(i) ?? build(solidOf(meshes[i]!), keep);
      built.set(i, m);
      return m;
    };
    return pairs.map(([a, b]) => {
      const both = kernel.Manifold.intersection(one(a), one(b));
      const shared = both.volume();
      both.delete();
      return shared;
    });
  });
}

type Keep = <T extends Manifold | CrossSection>(m: T) => T;

/** Runs `use` and afterwards frees everything it was handed, whether it returns or throws. */
function withKernel<T>(use: (keep: Keep) => T): T {
  const held: (Manifold | CrossSection)[] = [];
  try {
    return use((m) => {
      held.push(m);
      return m;
    });
  } catch (e) {
    if (e instanceof SolidError) throw e;
    const status = statusWord(e);
    throw new SolidError(
      status,
      `the solid cannot be built (${status}): ${meaning[status] ?? 'the kernel refused it'}`,
    );
  } finally {
    for (const m of held) m.delete();
  }
}

function build(solid: Solid, keep: Keep): Manifold {
  const m = keep(construct(solid, keep));
  const status = m.status();
  if (status !== 'NoError')
    throw new SolidError(status, `the solid cannot be built (${status}): ${meaning[status] ?? ''}`);
  return m;
}

function construct(solid: Solid, keep: Keep): Manifold {
  const { Manifold } = kernel;
  switch (solid.kind) {
    case 'mesh':
      return Manifold.ofMesh(
        new kernel.Mesh({
          numProp: 3,
          vertProperties: Float32Array.from(solid.mesh.positions),
          triVerts: solid.mesh.triangles,
        }),
      );
    case 'union':
      return Manifold.union(solid.of.map((s) => build(s, keep)));
    case 'intersection':
      return Manifold.intersection(solid.of.map((s) => build(s, keep)));
    case 'hull':
      return Manifold.hull(solid.of.map((s) => build(s, keep)));
    case 'hull-of-points':
      // rounded as meshes are, so that faces meant to lie in one plane do
      return Manifold.hull(solid.points.map(([x, y, z]) => [Math.fround(x), Math.fround(y), Math.fround(z)]));
    case 'raised': {
      const { rings, from, to } = solid;
      const section = keep(kernel.CrossSection.ofPolygons(rings as Mutable<Vec2>[][], 'NonZero'));
      return keep(section.extrude(to - from)).translate(0, 0, from);
    }
    case 'difference':
      return Manifold.difference([solid.from, ...solid.minus].map((s) => build(s, keep)));
    case 'placed':
      return build(solid.solid, keep).transform(matrixOf(solid.frame) as Parameters<Manifold['transform']>[0]);
    case 'trimmed': {
      const { point, normal } = solid.plane;
      return build(solid.solid, keep).trimByPlane(normal as Mutable<Vec3>, dot(point, normal));
    }
    case 'largest-body': {
      const bodies = build(solid.solid, keep).decompose().map(keep);
      if (bodies.length === 0) throw new SolidError('Empty', 'the solid has no body');
      const largest = bodies.reduce((a, b) => (b.volume() > a.volume() ? b : a));
      return largest.translate(0, 0, 0);
    }
    case 'foot-chamfered':
      return chamferedFoot(build(solid.solid, keep), solid.size, keep);
  }
}

/** Height of a printed layer, as common as any, and half the width of a groove that counts as writing, mm. */
const LAYER = 0.2;
const WRITING = 1.2;

/** How far a wall may lean out within a layer, mm: a round skin over the flat it lies on does. What leans further is left. */
const LEAN = 2;

/** What an outline may be off by for the chamfer's sake, mm. */
const CLOSE = 0.01;

function chamferedFoot(whole: Manifold, size: number, keep: Keep): Manifold {
  const low = whole.boundingBox().min[2];
  const steps = Math.max(1, Math.ceil(size / LAYER - 1e-9));
  const rings = Array.from({ length: steps }, (_, k): Manifold => {
    const section = keep(whole.slice(low + (size * (k + 0.5)) / steps));
    const filled = keep(keep(section.offset(WRITING, 'Round', 2, 32)).offset(-WRITING, 'Round', 2, 32));
    const closed = keep(filled.simplify(CLOSE));
    const inset = keep(closed.offset(-size * (1 - (k + 0.5) / steps), 'Miter', 2));
    const ring = keep(keep(closed.offset(LEAN, 'Miter', 2)).subtract(inset));
    return keep(keep(ring.extrude(1 + (size * (k + 1)) / steps)).translate(0, 0, low - 1));
  });
  return kernel.Manifold.difference([whole, ...rings]);
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

const meaning: Readonly<Record<string, string>> = {
  NotManifold: 'a mesh in it is open, or its triangles do not all face outwards',
  NonFiniteVertex: 'a coordinate is not a number',
  VertexOutOfBounds: 'a triangle names a point that does not exist',
  ResultTooLarge: 'the result has too many triangles',
};

function statusWord(e: unknown): string {
  const code = (e as { code?: unknown } | null)?.code;
  if (typeof code === 'string') return code;
  return e instanceof Error && e.message ? e.message : 'KernelFailure';
}
