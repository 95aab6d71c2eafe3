import { radians } from '../../src/geometry/angle.js';
import { frameAlong } from '../../src/geometry/frame.js';
import { unit, type Vec3 } from '../../src/geometry/vec3.js';
import type { CollectorPlan, JigPlan } from '../../src/params/plan.js';
import { jigWith } from './jig-fixture.js';

/** Tube at the inlets, mm. */
export const TUBE = { od: 42.4, wall: 2 };

export const BED: Vec3 = [250, 250, 400];

export const JIG: JigPlan = jigWith();

/** A plain collector of some inlets, askew in the world; tests change one thing of it. */
export function mergePlan(inlets: number, change: Partial<CollectorPlan> = {}): CollectorPlan {
  return {
    name: 'Merge 1',
    cylinders: Array.from({ length: inlets }, (_, i) => i + 1),
    from: [],
    frame: frameAlong([120, -80, 300], unit([0.3, -1, 0.4]), 0.5),
    inletGap: 8,
    mergeHalfAngle: inlets === 1 ? 0 : radians(10),
    order: { kind: 'free' },
    outlet: { od: 60.3, wall: 2, coneLength: 80, tail: 70, throat: null },
    centre: 'open',
    slip: null,
    branch: null,
    freedom: null,
    ...change,
  };
}

/** A venturi's outlet. */
export const VENTURI: CollectorPlan['outlet'] = {
  od: 63.5,
  wall: 2,
  coneLength: 60,
  tail: 80,
  throat: { bore: 46, length: 12, diffuserLength: 55 },
};

export const SLIP: CollectorPlan['slip'] = { overlap: 30, fit: 0.3 };
