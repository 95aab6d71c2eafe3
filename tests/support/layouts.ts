import { frameAlong } from '../../src/geometry/frame.js';
import { inletFrames, ringRadius } from '../../src/geometry/inlet-ring.js';
import { unit } from '../../src/geometry/vec3.js';
import { permutations } from '../../src/routing/inlet-order.js';
import type { RouteProblem } from '../../src/routing/problem.js';
import { seededRandom } from '../../src/routing/random.js';

const OD = 42.4;

/** A random open-bay layout: 2 to 4 ports a pitch apart, one collector below, 520 to 940 mm of target length. */
export function randomLayout(seed: number): RouteProblem {
  const random = seededRandom(seed);
  const between = (lo: number, hi: number): number => lo + (hi - lo) * random();
  const count = 2 + Math.floor(random() * 3);
  const target = between(520, 940);
  const pitch = between(85, 110);
  const middle = (pitch * (count - 1)) / 2;
  const axis = unit([between(-0.6, 0.6), -1, between(-0.4, 0.4)]);
  const place = frameAlong([middle + between(-80, 80), between(-380, -200), between(90, 230)], axis, between(0, 6));
  const cylinders = Array.from({ length: count }, (_, i) => i + 1);
  return {
    runners: cylinders.map((cylinder, i) => ({
      cylinder,
      collector: 0,
      port: frameAlong([i * pitch, 0, 0], unit([between(-0.15, 0.15), between(-0.35, 0.15), 1])),
      minFirst: 25,
      given: null,
    })),
    collectors: [
      {
        name: 'collector',
        inlets: inletFrames(place, count, ringRadius(count, OD, 4), between(0.1, 0.2)),
        orders: permutations(cylinders),
        orderKept: true,
        runIn: 60,
        runInGap: 3.9,
      },
    ],
    keptOut: [
      {
        name: 'head',
        obstacle: { kind: 'half-space', point: [0, 0, 10], normal: [0, 0, 1] },
        limit: 7,
        startsOn: cylinders,
        endsOn: [],
      },
    ],
    radius: OD / 2,
    target,
    clearance: 7,
    selfGap: 7,
    selfSeparation: 3 * OD,
    stock: [{ clr: 63.5, maxAngle: Math.PI, leg: 40 }],
    minStraight: 10,
    minStraightInlet: 20,
    seed,
  };
}
