import { type Frame, WORLD } from '../geometry/frame.js';
import { type Solid, volumeOf } from '../geometry/solid.js';
import type { Vec3 } from '../geometry/vec3.js';
import type { CollectorPlan } from '../params/plan.js';
import { collectorGas, collectorSolid } from './collector-solid.js';
import { type CollectorGeometry, collectorGeometry, type InletTube } from './merge-geometry.js';
import type { SolidPart } from './part.js';
import { fileName, printedPart } from './printed-part.js';

/** A collector as numbers and as a body. */
export interface Collector {
  readonly plan: CollectorPlan;
  readonly geometry: CollectorGeometry;
  /** Volume the gas fills from the inlets' ends to the end of the tail, mm3. */
  readonly gasVolume: number;
  readonly part: SolidPart;
}

/** Collector's frame turned over: printed, it stands on its outlet. */
const ON_OUTLET: Frame = { ...WORLD, y: [0, -1, 0], z: [0, 0, -1] };

/**
 * Where large tubes meet at a flat angle their walls graze each other, and now and then a boolean leaves an edge open on the
 * printing grid. The tubes are then made this much smaller, mm, a step at a time: a hundredth of what a printer can hold.
 */
const SMALLER = 0.001;
const STEPS = 8;

/** Crumbs the bores may leave loose where they meet, mm3: nothing a printer would lay down. */
const SLIVER = 1;

/** The collector of a plan for the tube that arrives at its inlets, `file` its name as a file. Throws RangeError when its solid is not one closed body. */
export function collectorOf(
  plan: CollectorPlan,
  tube: InletTube,
  bed: Vec3,
  file: string = fileName(plan.name),
): Collector {
  const geometry = collectorGeometry(plan, tube);
  const part = closedPart(geometry, (solid) =>
    printedPart(
      {
        name: file,
        kind: 'collector',
        title: `Collector ${plan.name}: ${geometry.inlets} into 1`,
        solid,
        at: plan.frame,
        up: ON_OUTLET,
        dropBelow: SLIVER,
      },
      bed,
    ),
  );
  return { plan, geometry, gasVolume: volumeOf(collectorGas(geometry)), part };
}

/** The first solid that is one closed body, of tubes ever so slightly smaller. */
function closedPart(geometry: CollectorGeometry, make: (solid: Solid) => SolidPart): SolidPart {
  for (let k = 0; ; k++) {
    const by = k * SMALLER;
    try {
      return make(collectorSolid({ ...geometry, bore: geometry.bore - by, outside: geometry.outside - by }));
    } catch (e) {
      if (!(e instanceof RangeError) || k === STEPS) throw e;
    }
  }
}
