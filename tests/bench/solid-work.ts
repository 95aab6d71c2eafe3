import type { Mesh } from '../../src/geometry/mesh/mesh.js';
import type { Path } from '../../src/geometry/path/path.js';
import type { Solid } from '../../src/geometry/solid/solid.js';
import type { Section } from '../../src/geometry/solid/solid-shapes.js';
import type { SolidPart } from '../../src/parts/part.js';

/** What a leaf of a solid was made of. */
export type MadeAs =
  | { readonly kind: 'sweep'; readonly path: Path; readonly radius: number }
  | { readonly kind: 'loft'; readonly sections: readonly Section[] };

/** One part to be made: its solid as the program describes it, before it is laid down. */
export interface PartWork {
  readonly name: string;
  readonly solid: Solid;
}

/** Leaves of a solid. */
export function leavesOf(solid: Solid): Mesh[] {
  switch (solid.kind) {
    case 'mesh':
      return [solid.mesh];
    case 'hull-of-points':
    case 'raised':
      return [];
    case 'difference':
      return [solid.from, ...solid.minus].flatMap(leavesOf);
    case 'placed':
    case 'trimmed':
    case 'foot-chamfered':
    case 'largest-body':
      return leavesOf(solid.solid);
    default:
      return solid.of.flatMap(leavesOf);
  }
}

/** True when any of a solid is a convex hull. */
export function hasHull(solid: Solid): boolean {
  switch (solid.kind) {
    case 'mesh':
    case 'raised':
      return false;
    case 'hull':
    case 'hull-of-points':
      return true;
    case 'difference':
      return [solid.from, ...solid.minus].some(hasHull);
    case 'placed':
    case 'trimmed':
    case 'foot-chamfered':
    case 'largest-body':
      return hasHull(solid.solid);
    default:
      return solid.of.some(hasHull);
  }
}

/** Solids built while something runs. */
export function solidsBuiltBy(run: () => readonly SolidPart[]): PartWork[] {
  const built: Solid[] = [];
  const all = globalThis as { solidsBuilt?: Solid[] };
  all.solidsBuilt = built;
  const parts = run();
  delete all.solidsBuilt;
  return built.map((solid, i) => ({ name: parts.length === built.length ? parts[i]!.name : `solid ${i + 1}`, solid }));
}
