import { stringify } from 'yaml';
import type { Plan } from '../../src/params/plan.js';
import { readPlan } from '../../src/params/read-plan.js';
import { seededRandom } from '../../src/routing/random.js';

/** The plan of a file given as plain data; throws what is wrong with it. `scan` is what every scan it names holds. */
export function planOfFile(file: object, name = 'layout', scan?: Uint8Array): Plan {
  const read = readPlan(stringify(file), `${name}.yaml`, scan && (() => scan));
  if (!read.ok) throw new Error(read.text);
  return read.plan;
}

/** A random open-bay layout: 2 to 4 ports a pitch apart, one collector below, 520 to 940 mm of target length. */
export function randomLayout(seed: number): Plan {
  const random = seededRandom(seed);
  const between = (lo: number, hi: number): number => lo + (hi - lo) * random();
  const count = 2 + Math.floor(random() * 3);
  const target = between(520, 940);
  const pitch = between(85, 110);
  const middle = (pitch * (count - 1)) / 2;
  const direction = [between(-0.6, 0.6), -1, between(-0.4, 0.4)];
  const at = [middle + between(-80, 80), between(-380, -200), between(90, 230)];
  const cylinders = Array.from({ length: count }, (_, i) => i + 1);
  return planOfFile({
    evenrun: 1,
    name: `open bay ${seed}`,
    units: 'mm',
    engine: { cylinders: count, layout: 'inline', firing_order: cylinders, bore: 86, stroke: 86 },
    head: {
      ports: cylinders.map((cylinder, i) => ({
        cylinder,
        at: [i * pitch, 0],
        direction: [between(-0.15, 0.15), between(-0.35, 0.15), 1],
        shape: { kind: 'round', diameter: 38 },
      })),
      bolts: [-1, ...cylinders].map((i) => ({ at: [(i - 0.5) * pitch, 12], thread: 'M8' })),
    },
    flange: { thickness: 10, material: 'mild steel' },
    tube: { od: 42.4, wall: 1.6, material: '304 stainless', bends: [{ clr: 63.5, max_angle: 180, leg: 40 }] },
    collector: {
      at,
      direction,
      clocking: between(0, 340),
      gap: 4,
      merge_half_angle: between(6, 11),
      outlet: { od: 63.5, cone_length: 100 },
    },
    runners: { length: target, clearance: 7, seed },
    access: { bolts: false },
    jig: { bed: [210, 210, 210] },
  });
}
