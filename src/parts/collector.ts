import { type Frame, WORLD } from '../geometry/frame.js';
import { volumeOf } from '../geometry/solid.js';
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
  const part = printedPart(
    {
      name: file,
      kind: 'collector',
      title: `Collector ${plan.name}: ${geometry.inlets} into 1`,
      solid: collectorSolid(geometry),
      at: plan.frame,
      up: ON_OUTLET,
      dropBelow: SLIVER,
    },
    bed,
  );
  return { plan, geometry, gasVolume: volumeOf(collectorGas(geometry)), part };
}
