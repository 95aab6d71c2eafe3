import { type Bounds, meshBounds } from '../../geometry/mesh/measure.js';
import type { Mesh } from '../../geometry/mesh/mesh.js';
import type { SolidPart } from '../part.js';
import { placedMesh } from '../printed-part.js';

/** A printed part where it stands in the assembly, world. */
export interface StandingPart {
  readonly part: SolidPart;
  readonly mesh: Mesh;
  readonly bounds: Bounds;
}

/** The part taken to its place by its pose. */
export function standingPart(part: SolidPart): StandingPart {
  const mesh = placedMesh(part.mesh, part.pose);
  return { part, mesh, bounds: meshBounds(mesh) };
}
