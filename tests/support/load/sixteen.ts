import { seededRandom } from '../../../src/routing/random.js';

const PITCH = 96;

/** The scan: a tray under and beside both banks, so many cells round it and along it, two triangles each. */
const CELLS = [500, 500] as const;

/**
 * The plan of a vee sixteen: two heads of eight, two collectors of four under each, a scanned tray round the whole. Made up, like
 * every starter.
 */
export function sixteen(scan: string | null): object {
  const bank = (side: 1 | -1, first: number): object => ({
    name: side > 0 ? 'left head' : 'right head',
    at: [side > 0 ? 0 : 7 * PITCH, 230, side * 240],
    facing: [0, -0.4, side],
    body: { from: [-80, -70], to: [7 * PITCH + 80, 110], depth: 200 },
    ports: Array.from({ length: 8 }, (_, i) => ({
      cylinder: first + i,
      at: [i * PITCH, 0],
      shape: { kind: 'round', diameter: 38 },
    })),
    bolts: Array.from({ length: 9 }, (_, i) => ({ at: [(i - 0.5) * PITCH, i % 2 === 0 ? 14 : -14], thread: 'M8' })),
  });
  const collector = (name: string, cylinders: number[], x: number, side: 1 | -1): object => ({
    name,
    cylinders,
    at: [x, -180, side * 330],
    direction: [0.2, -1, 0],
    clocking: 45,
    outlet: { od: 63.5, cone_length: 100 },
  });
  const along = (i: number): number => (4 * i + 1.5) * PITCH + 20;
  return {
    evenrun: 1,
    name: 'vee sixteen',
    units: 'mm',
    engine: {
      cylinders: 16,
      layout: 'vee',
      bank_angle: 90,
      firing_order: Array.from({ length: 16 }, (_, i) => (i % 2 === 0 ? i / 2 + 1 : 9 + (i - 1) / 2)),
      bore: 86,
      stroke: 86,
    },
    heads: [bank(1, 1), bank(-1, 9)],
    flange: { thickness: 10, material: 'mild steel' },
    tube: { od: 42.4, wall: 1.6, material: '304 stainless', bends: [{ clr: 63.5, leg: 60 }] },
    collectors: [
      collector('left front', [1, 2, 3, 4], along(0), 1),
      collector('left rear', [5, 6, 7, 8], along(1), 1),
      // x runs to the front on the right: its first four stand at the rear
      collector('right rear', [9, 10, 11, 12], along(1), -1),
      collector('right front', [13, 14, 15, 16], along(0), -1),
    ],
    runners: { length: 720, clearance: 7, seed: 1, budget: 600 },
    ...(scan === null ? {} : { keep_out: [{ name: 'bay', kind: 'mesh', file: scan, unit: 'mm', clearance: 10 }] }),
    jig: { bed: [210, 210, 210] },
  };
}

/** Binary STL of the tray the vee sixteen stands in: 500,000 triangles with a scanner's noise of 0.4 mm, open as scans are. */
export function trayScan(): Uint8Array {
  const random = seededRandom(7);
  const [round, along] = CELLS;
  const points = new Float64Array(3 * (round + 1) * (along + 1));
  for (let j = 0; j <= along; j++) {
    for (let i = 0; i <= round; i++) {
      const angle = Math.PI * (1 + i / round);
      const ripple = 12 * Math.sin(j / 9) * Math.cos(i / 11) + 0.8 * (random() - 0.5);
      const at = 3 * (j * (round + 1) + i);
      points[at] = -250 + (1250 * j) / along;
      points[at + 1] = 150 + (670 + ripple) * Math.sin(angle);
      points[at + 2] = (670 + ripple) * Math.cos(angle);
    }
  }
  const bytes = new Uint8Array(84 + 50 * 2 * round * along);
  const view = new DataView(bytes.buffer);
  view.setUint32(80, 2 * round * along, true);
  let offset = 84;
  const triangle = (...corners: readonly number[]): void => {
    corners.forEach((p, c) => {
      for (let a = 0; a < 3; a++) view.setFloat32(offset + 12 + 12 * c + 4 * a, points[3 * p + a]!, true);
    });
    offset += 50;
  };
  for (let j = 0; j < along; j++) {
    for (let i = 0; i < round; i++) {
      const p = j * (round + 1) + i;
      triangle(p, p + 1, p + round + 2);
      triangle(p, p + round + 2, p + round + 1);
    }
  }
  return bytes;
}
