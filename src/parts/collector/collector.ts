import { degrees } from '../../geometry/angle.js';
import { type Frame, WORLD } from '../../geometry/frame.js';
import type { Mesh } from '../../geometry/mesh/mesh.js';
import { placed, volumeOf } from '../../geometry/solid/solid.js';
import type { Vec3 } from '../../geometry/vec3.js';
import { type LengthWords, lengthsIn } from '../../params/faults/wording.js';
import type { CollectorPlan } from '../../params/plan.js';
import type { LengthUnit } from '../../params/units.js';
import type { SolidPart } from '../part.js';
import { plateDensity } from '../plate-density.js';
import { fileName, printedPart, soundBody } from '../printed-part.js';
import { type CollectorGeometry, collectorGeometry, type InletTube } from './merge-geometry.js';
import { collectorGas, collectorSolid } from './solid.js';

/** A collector as numbers and as a body. */
export interface Collector {
  /** What was wanted. */
  readonly plan: CollectorPlan;
  /** Its sizes in closed form. */
  readonly geometry: CollectorGeometry;
  /** Volume the gas fills from the inlets' ends to the end of the tail, mm3. */
  readonly gasVolume: number;
  /** The printed solid. */
  readonly part: SolidPart;
  /** Volume of its walls, fillers and sleeves as modelled, mm3. */
  readonly wallVolume: number;
  /** kg, of the material of the tubes. */
  readonly mass: number;
  /** What the shop should know of it, one sentence each. */
  readonly notes: readonly string[];
}

/** Collector's frame turned over: printed, it and its pieces stand on their outlet. */
export const ON_OUTLET: Frame = { ...WORLD, y: [0, -1, 0], z: [0, 0, -1] };

/**
 * Where large tubes meet at a flat angle their walls graze each other, and now and then a boolean leaves an edge open on the
 * printing grid. The tubes are then made this much smaller, mm, a step at a time: a hundredth of what a printer can hold.
 */
const SMALLER = 0.001;
const STEPS = 8;

/** Crumbs the bores may leave loose where they meet, mm3: nothing a printer would lay down. */
const SLIVER = 1;

/**
 * The collector of a plan for the tube that arrives at its inlets, `file` its name as a file, `material` the words for the tubes', `chamfer` of the first layers, mm;
 * its notes say lengths in `units`.
 * Throws RangeError when its solid is not one closed body.
 */
export function collectorOf(
  plan: CollectorPlan,
  tube: InletTube,
  bed: Vec3,
  file: string = fileName(plan.name),
  material = 'steel',
  chamfer = 0,
  units: LengthUnit = 'mm',
): Collector {
  const geometry = collectorGeometry(plan, tube);
  const part = smallerBy(geometry, (g) =>
    printedPart(
      {
        name: file,
        kind: 'collector',
        title: `Collector ${plan.name}: ${geometry.inlets} into 1`,
        solid: collectorSolid(g),
        at: plan.frame,
        up: ON_OUTLET,
        dropBelow: SLIVER,
        chamfer,
      },
      bed,
    ),
  );
  const wallVolume = volumeOf(collectorSolid(geometry));
  return {
    plan,
    geometry,
    gasVolume: volumeOf(collectorGas(geometry)),
    part,
    wallVolume,
    mass: wallVolume * plateDensity(material) * 1e-9,
    notes: notesOn(geometry, lengthsIn(units)),
  };
}

/** The collector in steel where it stands, one closed body. Throws RangeError as `collectorOf` does. */
export const standingCollector = ({ plan, geometry }: Pick<Collector, 'plan' | 'geometry'>): Mesh =>
  smallerBy(geometry, (g) => soundBody(placed(collectorSolid(g), plan.frame), plan.name, SLIVER));

function notesOn({ spike, slip, branch }: CollectorGeometry, words: LengthWords): string[] {
  return [
    ...(spike === null
      ? []
      : [`a spike ${words(spike.length, 1)} long closes the centre from the inlet plane to where the tubes meet`]),
    ...(slip === null
      ? []
      : [
          `sleeves of ${words(2 * slip.bore, 2)} bore slip ${words(slip.overlap, 1)} over the tubes, which are not welded there: hold them with springs or tabs (common practice, no source)`,
          `each sleeve goes on ${words(slip.land, 1)} over the merge's own tube and is welded round its edge there`,
        ]),
    ...(branch === null
      ? []
      : [
          `a branch of ${words(branch.od, 1)} leaves the ${branch.host.kind} at ${degrees(branch.angle).toFixed(1)} deg to the gas, its axis meets the collector's ${words(branch.at, 1)} from the inlet plane`,
        ]),
  ];
}

/** What is made of the collector as soon as it is of closed bodies, of tubes ever so slightly smaller if need be. */
export function smallerBy<T>(geometry: CollectorGeometry, make: (geometry: CollectorGeometry) => T): T {
  for (let k = 0; ; k++) {
    const by = k * SMALLER;
    try {
      return make({ ...geometry, bore: geometry.bore - by, outside: geometry.outside - by });
    } catch (e) {
      if (!(e instanceof RangeError) || k === STEPS) throw e;
    }
  }
}
