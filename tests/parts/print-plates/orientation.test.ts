import { describe, expect, it } from 'vitest';
import { frameAlong, WORLD } from '../../../src/geometry/frame.js';
import { evaluate, placed, type Solid, union } from '../../../src/geometry/solid.js';
import { bar, box } from '../../../src/geometry/solid-shapes.js';
import { unit, type Vec3 } from '../../../src/geometry/vec3.js';
import { bestOrientation } from '../../../src/parts/print-plates/orientation.js';
import { PRINT } from '../../support/print-plan.js';

const best = (solid: Solid, bed: Vec3 = [210, 210, 210]) => bestOrientation(evaluate(solid), { bed, print: PRINT });
const mushroom = union(bar(8, 0, 40), bar(30, 39, 45));

describe('best orientation', () => {
  it('stands a mushroom on its cap, where nothing leans out', () => {
    const { up, stand } = best(mushroom);
    expect(up.z[2]).toBeCloseTo(-1, 6);
    expect(stand.overhang).toBe(0);
    expect(Math.abs(stand.foot / (Math.PI * 900) - 1)).toBeLessThan(0.01);
  });

  it('keeps a part as it lies where no way is better', () => {
    expect(best(box([0, 0, 0], [30, 20, 10])).up).toEqual(WORLD);
    expect(best(placed(mushroom, { ...WORLD, y: [0, -1, 0], z: [0, 0, -1] })).up).toEqual(WORLD);
  });

  it('finds the foot of a part that lies askew', () => {
    const askew = frameAlong([5, 6, 7], unit([1, 2, 3]), 0.4);
    const { up, stand } = best(placed(mushroom, askew));
    expect(up.z[0] * askew.z[0] + up.z[1] * askew.z[1] + up.z[2] * askew.z[2]).toBeCloseTo(-1, 4);
    expect(stand.overhang).toBeLessThan(1);
  });

  it('takes no way that does not fit the bed', () => {
    const tall = union(box([0, 0, 0], [60, 20, 10]), box([25, 5, 9], [35, 15, 30]));
    const lying = placed(tall, { origin: [0, 0, 0], x: [0, 0, 1], y: [0, 1, 0], z: [-1, 0, 0] });
    expect(best(lying).stand.overhang).toBe(0);
    const low = best(lying, [210, 210, 22]);
    expect(Math.abs(low.up.z[1])).toBeCloseTo(1, 6);
  });
});
