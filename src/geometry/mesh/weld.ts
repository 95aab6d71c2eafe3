import type { Mesh } from './mesh.js';

/** The same triangles on points of which no two have equal coordinates (-0 counts as 0). Points no triangle uses go. */
export function weldExact(mesh: Mesh): Mesh {
  const { positions: given, triangles: corners } = mesh;
  const triangles = new Uint32Array(corners.length);
  const positions = new Float64Array(3 * Math.min(corners.length, given.length / 3));
  // open addressing over the bits of the coordinates: a table at least twice as long as there are points
  const mask = 2 ** Math.ceil(Math.log2(Math.max(8, (2 * positions.length) / 3))) - 1;
  const table = new Int32Array(mask + 1).fill(-1);
  const point = new Float64Array(3);
  const bits = new Int32Array(point.buffer);
  let count = 0;
  for (let k = 0; k < corners.length; k++) {
    for (let i = 0; i < 3; i++) point[i] = given[3 * corners[k]! + i]! + 0;
    let at = hashOf(bits) & mask;
    while (table[at]! >= 0 && !isSame(positions, table[at]!, point)) at = (at + 1) & mask;
    if (table[at]! < 0) {
      table[at] = count;
      positions.set(point, 3 * count++);
    }
    triangles[k] = table[at]!;
  }
  return { positions: positions.slice(0, 3 * count), triangles };
}

function isSame(positions: Float64Array, i: number, point: Float64Array): boolean {
  // what is not a number is itself here
  for (let k = 0; k < 3; k++) if (!Object.is(positions[3 * i + k], point[k])) return false;
  return true;
}

/** Six words mixed by multiplication and shifts. */
function hashOf(words: Int32Array): number {
  let h = 0;
  for (let i = 0; i < 6; i++) {
    h = Math.imul(h ^ words[i]!, 0x9e3779b1);
    h ^= h >>> 15;
  }
  return h >>> 0;
}
