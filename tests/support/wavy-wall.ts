import { seededRandom } from '../../src/routing/random.js';

/** Cells of the scan along x and y: two triangles each. */
const CELLS = [400, 250] as const;

/** Size and place of the wall, mm. */
const WALL = { x: [-350, 650], y: [-850, 250], z: 330, wave: 18, noise: 0.4 } as const;

/**
 * Binary STL of a scanned bay wall in front of the engine: 200,000 triangles of a wavy sheet with a scanner's noise. It is open, as
 * scans are.
 */
export function wavyWall(seed = 1): Uint8Array {
  const random = seededRandom(seed);
  const [nx, ny] = CELLS;
  const heights = Float64Array.from({ length: (nx + 1) * (ny + 1) }, (_, k) => {
    const [x, y] = at(k % (nx + 1), Math.floor(k / (nx + 1)));
    return wallHeight(x, y) + WALL.noise * (2 * random() - 1);
  });
  const bytes = new Uint8Array(84 + 50 * 2 * nx * ny);
  const view = new DataView(bytes.buffer);
  view.setUint32(80, 2 * nx * ny, true);
  let offset = 84;
  const triangle = (...corners: (readonly [i: number, j: number])[]): void => {
    corners.forEach(([i, j], c) => {
      const [x, y] = at(i, j);
      [x, y, heights[j * (nx + 1) + i]!].forEach((v, a) => void view.setFloat32(offset + 12 + 12 * c + 4 * a, v, true));
    });
    offset += 50;
  };
  for (let j = 0; j < ny; j++) {
    for (let i = 0; i < nx; i++) {
      triangle([i, j], [i + 1, j], [i + 1, j + 1]);
      triangle([i, j], [i + 1, j + 1], [i, j + 1]);
    }
  }
  return bytes;
}

/** z of the wall without the noise, mm. */
export const wallHeight = (x: number, y: number): number => WALL.z + WALL.wave * Math.sin(x / 45) * Math.cos(y / 70);

const at = (i: number, j: number): [x: number, y: number] => [
  WALL.x[0] + ((WALL.x[1] - WALL.x[0]) * i) / CELLS[0],
  WALL.y[0] + ((WALL.y[1] - WALL.y[0]) * j) / CELLS[1],
];
