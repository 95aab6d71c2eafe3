import { cornersOf, triangleArea, triangleCount } from '../../src/geometry/mesh/measure.js';
import type { Mesh } from '../../src/geometry/mesh/mesh.js';

/** Surface area, mm2. */
export function meshArea(mesh: Mesh): number {
  let area = 0;
  for (let t = 0; t < triangleCount(mesh); t++) area += triangleArea(cornersOf(mesh, t));
  return area;
}
