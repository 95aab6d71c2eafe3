import { seededRandom } from '../../src/routing/random.js';

/** Primaries of each collector for a header of so many. */
const GROUPS: Readonly<Record<number, readonly number[]>> = {
  1: [1],
  2: [2],
  3: [3],
  4: [4],
  6: [3, 3],
  8: [4, 4],
  12: [4, 4, 4],
};

export const SIZES = Object.keys(GROUPS).map(Number);

const PITCH = 96;

/**
 * The plan file of an inline header of 1 to 12 primaries, its collectors of up to four side by side under their ports: what is asked
 * of each primary stays alike while their number grows. Collectors stand a little differently for every seed.
 */
export function growingHeader(count: number, seed: number, extra: object = {}): object {
  const random = seededRandom(seed);
  const about = (middle: number, by: number): number => Math.round(middle + by * (2 * random() - 1));
  const cylinders = Array.from({ length: count }, (_, i) => i + 1);
  let begun = 0;
  const collectors = GROUPS[count]!.map((size, g) => {
    const own = cylinders.slice(begun, begun + size);
    const middle = (begun + (size - 1) / 2) * PITCH;
    begun += size;
    return {
      name: `collector ${g + 1}`,
      cylinders: own,
      at: [about(middle + 20, 30), about(-340, 30), about(160, 20)],
      direction: [about(20, 20) / 100, -1, about(0, 15) / 100],
      clocking: 45,
      outlet: { od: 63.5, cone_length: 100 },
    };
  });
  return {
    evenrun: 1,
    name: `header of ${count}`,
    units: 'mm',
    engine: {
      cylinders: count,
      layout: count === 1 ? 'single' : 'inline',
      firing_order: cylinders,
      bore: 86,
      stroke: 86,
    },
    head: {
      ports: cylinders.map((cylinder, i) => ({
        cylinder,
        at: [i * PITCH, 0],
        shape: { kind: 'round', diameter: 38 },
      })),
      bolts: [0, ...cylinders].map((i) => ({ at: [(i - 0.5) * PITCH, i % 2 === 0 ? 14 : -14], thread: 'M8' })),
    },
    flange: { thickness: 10, material: 'mild steel' },
    tube: { od: 42.4, wall: 1.6, material: '304 stainless', bends: [{ clr: 63.5, leg: 60 }] },
    collectors,
    runners: { length: 720, clearance: 7, seed },
    jig: { bed: [210, 210, 210] },
    ...extra,
  };
}
