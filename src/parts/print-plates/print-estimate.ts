import { cornersOf, meshBounds, meshVolume, triangleCount } from '../../geometry/mesh/measure.js';
import type { Mesh } from '../../geometry/mesh/mesh.js';
import { cross, length, sub } from '../../geometry/vec3.js';
import type { PrintPlan } from '../../params/plan.js';

/** What printing something takes, roughly. */
export interface PrintEstimate {
  /** Plastic, mm3. */
  readonly plastic: number;
  /** kg. */
  readonly mass: number;
  /** s. */
  readonly time: number;
}

/**
 * Plastic, mass and time of one part by a simple model of our own: upright faces are a wall thick, faces that look up or down
 * (within 45 degrees) so many solid layers, both together no more than the part, the rest is filled in part; skins and
 * filling are laid down at a steady flow each, and every layer costs its time. Support and a brim are left out.
 */
export function printEstimate(mesh: Mesh, print: PrintPlan): PrintEstimate {
  const volume = meshVolume(mesh);
  const skin = Math.min(volume, skinVolume(mesh, print));
  const filling = print.infill * (volume - skin);
  const layers = Math.ceil(meshBounds(mesh).high[2] / print.layer);
  return {
    plastic: skin + filling,
    mass: (skin + filling) * 1e-9 * print.density,
    time: skin / print.flow + filling / print.infillFlow + layers * print.layerTime,
  };
}

function skinVolume(mesh: Mesh, { walls, lineWidth, solidLayers, layer }: PrintPlan): number {
  // lines with round edges are laid closer than they are wide, so that the area of each is that of a box (from memory)
  const spacing = Math.max(lineWidth / 2, lineWidth - layer * (1 - Math.PI / 4));
  let [upright, flat] = [0, 0];
  for (let t = 0; t < triangleCount(mesh); t++) {
    const [a, b, c] = cornersOf(mesh, t);
    const normal = cross(sub(b, a), sub(c, a));
    const area = length(normal) / 2;
    if (Math.abs(normal[2]) > Math.SQRT1_2 * 2 * area) flat += area;
    else upright += area;
  }
  return upright * walls * spacing + flat * solidLayers * layer;
}

/** What several take together. */
export const together = (estimates: readonly PrintEstimate[]): PrintEstimate => ({
  plastic: estimates.reduce((sum, e) => sum + e.plastic, 0),
  mass: estimates.reduce((sum, e) => sum + e.mass, 0),
  time: estimates.reduce((sum, e) => sum + e.time, 0),
});
