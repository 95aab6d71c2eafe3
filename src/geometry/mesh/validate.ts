import { cornersOf, meshVolume, shellsOf, triangleArea, triangleCount } from './measure.js';
import type { Mesh } from './mesh.js';
import { weldExact } from './weld.js';

/** A triangle smaller than this, mm2, has collapsed: a hundredth of a micrometre on a one-micrometre side. */
const LEAST_TRIANGLE = 1e-14;

/** What a sound mesh of a part must be, beside closed. */
export interface MeshDemands {
  /** Number of closed skins; left out: any. */
  readonly bodies?: number;
  /** Least area of a triangle, mm2. */
  readonly leastTriangle?: number;
}

/** Everything wrong with a mesh, in words; empty when it is sound. */
export function meshFaults(mesh: Mesh, demands: MeshDemands = {}): string[] {
  const points = mesh.positions.length / 3;
  const faults: string[] = [];
  if (mesh.positions.length % 3 !== 0 || mesh.triangles.length % 3 !== 0) return ['points or triangles are cut short'];
  if (triangleCount(mesh) < 4) return [`${triangleCount(mesh)} triangles do not enclose anything`];
  if (mesh.positions.some((v) => !Number.isFinite(v))) return ['a coordinate is not a finite number'];
  if (mesh.triangles.some((i) => i >= points)) return [`a triangle names a point beyond the ${points} there are`];
  const open = unpairedEdges(mesh);
  if (open > 0) faults.push(`${open} edges are not paired with exactly one running the other way`);
  const least = demands.leastTriangle ?? LEAST_TRIANGLE;
  let collapsed = 0;
  for (let t = 0; t < triangleCount(mesh); t++) if (!(triangleArea(cornersOf(mesh, t)) >= least)) collapsed++;
  if (collapsed > 0) faults.push(`${collapsed} triangles are smaller than ${least} mm2`);
  const volume = meshVolume(mesh);
  if (!(volume > 0)) faults.push(`the volume is ${volume.toFixed(3)} mm3: the triangles do not face outwards`);
  const bodies = shellsOf(mesh).length;
  if (demands.bodies !== undefined && bodies !== demands.bodies) {
    faults.push(`${bodies} closed skins where ${demands.bodies} should be`);
  }
  return faults;
}

/** Throws RangeError naming every fault; `what` names the part. */
export function validateMesh(mesh: Mesh, what: string, demands: MeshDemands = {}): void {
  const faults = meshFaults(mesh, demands);
  if (faults.length > 0) throw new RangeError(`${what}: ${faults.join('; ')}`);
}

/**
 * The mesh as a reader of STL sees it: coordinates rounded to 32-bit floats and points of equal coordinates taken as one.
 * Triangles are kept as they are, so what rounding broke shows up in `meshFaults` of the result.
 */
export function asStlReaderSees(mesh: Mesh): Mesh {
  return weldExact({ positions: Float64Array.from(Float32Array.from(mesh.positions)), triangles: mesh.triangles });
}

/** Number of directed edges that are not met by exactly one running the other way. */
export function unpairedEdges({ triangles }: Mesh): number {
  // open addressing: every pair of points once, with how many edges run up and down it
  const mask = 2 ** Math.ceil(Math.log2(Math.max(8, 2 * triangles.length))) - 1;
  const [lows, highs] = [new Uint32Array(mask + 1), new Uint32Array(mask + 1)];
  const [ups, downs] = [new Uint32Array(mask + 1), new Uint32Array(mask + 1)];
  let unpaired = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const [a, b] = [triangles[t + k]!, triangles[t + (k === 2 ? 0 : k + 1)]!];
      const [low, high] = a < b ? [a, b] : [b, a];
      let at = (Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b)) & mask;
      while (ups[at]! + downs[at]! > 0 && (lows[at] !== low || highs[at] !== high)) at = (at + 1) & mask;
      [lows[at], highs[at]] = [low, high];
      // an edge from a point to itself has no partner
      if (a === b) unpaired++;
      else if (a < b) ups[at]!++;
      else downs[at]!++;
    }
  }
  for (let at = 0; at <= mask; at++) if (ups[at] !== 1 || downs[at] !== 1) unpaired += ups[at]! + downs[at]!;
  return unpaired;
}
