import * as z from 'zod';
import { radians } from '../../geometry/angle.js';
import { LENGTH_TOLERANCE } from '../../geometry/tolerance.js';
import { DEFAULTS } from '../defaults.js';
import type { PlanFault, PlanPath } from '../faults/plan-problem.js';
import { lengthWords, show, tidy } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField } from '../fields/number-field.js';
import { nameField } from '../fields/text-field.js';
import { MOST_STOCK_BENDS } from '../limits.js';
import { PIPE_SIZES, SAME_OD } from '../stock/pipe-sizes.js';
import { ELBOW_ANGLES, ELBOW_RADII, weldElbow } from '../stock/weld-elbows.js';
import type { LengthUnit } from '../units.js';
import { offerFields } from './stock-stick.js';

/** `bends`: the bent stock of one size of tube. */
export const stockBendsField = (lengths: Lengths) =>
  z
    .array(stockBendSchema(lengths))
    .min(1)
    .max(MOST_STOCK_BENDS)
    .describe('Bent stock the shop can get, the preferred one first');

/** One kind of bent stock; what it gives has `clr`, `max_angle`, `leg` and `short_leg`, of an elbow from the table. */
export function stockBendSchema(lengths: Lengths) {
  return z
    .strictObject({
      clr: lengths.positive('Centreline radius', { max: 1000 }).optional(),
      max_angle: angleField('Largest angle that can be cut from it; 180 when left out', 1, 180).optional(),
      leg: lengths.atLeastZero('Straight leg on each end of the bend; none when left out', { max: 1000 }).optional(),
      short_leg: lengths
        .atLeastZero('Leg on the other end of a J-bend; as long as leg when left out', { max: 1000 })
        .optional(),
      elbow: elbowSchema().optional(),
      use: nameField('Instead of its own sizes: the name of an entry of stock.tables.bends', 'shop U-bend').optional(),
      ...offerFields('U-bend'),
    })
    .transform((bend, context) => {
      const fault = (field: string, message: string): never => {
        context.addIssue({ code: 'custom', path: [field], message, input: bend });
        return z.NEVER;
      };
      if (bend.use !== undefined) return fault('use', `no entry of stock.tables.bends is named ${show(bend.use)}`);
      const { name, price, available } = bend;
      const offer = { name, price, available };
      if (bend.elbow !== undefined) {
        const own = (['clr', 'max_angle', 'leg', 'short_leg'] as const).find((f) => bend[f] !== undefined);
        if (own !== undefined)
          return fault(own, 'the table has the sizes of an elbow: leave this away, or leave elbow away');
        const { nps, radius, angle } = bend.elbow;
        const found = weldElbow(nps, radius, angle);
        if (found === null)
          return fault('elbow', 'ASME B16.9 has no 45 degree elbow of short radius: take radius long');
        const { od, clr, leg } = found;
        const elbow = { name: `NPS ${nps} elbow, ${angle} deg, ${radius} radius`, od };
        return { clr, max_angle: radians(angle), leg, short_leg: leg, elbow, ...offer };
      }
      if (bend.clr === undefined)
        return fault('clr', 'missing; expected a length such as 44.45 or "1.75 in", or an elbow');
      const leg = bend.leg ?? 0;
      const short_leg = bend.short_leg ?? leg;
      if (short_leg > leg) {
        const [most, found] = [lengthWords(leg, lengths.unit), lengthWords(short_leg, lengths.unit)];
        return fault('short_leg', `expected a short leg no longer than leg (${most}), found ${found}`);
      }
      const max_angle = bend.max_angle ?? radians(DEFAULTS.tube.bend.max_angle);
      return { clr: bend.clr, max_angle, leg, short_leg, elbow: undefined, ...offer };
    })
    .describe('Bent stock: clr with max_angle and legs, or an elbow.');
}

function elbowSchema() {
  return z
    .strictObject({
      nps: z
        .preprocess((value) => (typeof value === 'number' ? String(value) : value), z.literal([...PIPE_SIZES]))
        .describe('Nominal pipe size such as "1 1/2": the tube must be pipe of this size'),
      radius: z.enum(ELBOW_RADII).describe('long for 1.5 times the nominal size, short for once'),
      angle: z.literal([...ELBOW_ANGLES]).describe('45, 90 or 180 for a return. Degrees.'),
    })
    .describe('Instead of clr, max_angle and legs: a butt-weld elbow of ASME B16.9.');
}

/** A size of tube with its bent stock, mm. */
interface BentTube {
  readonly od: number;
  readonly wall: number;
  readonly bends: readonly { readonly clr: number; readonly elbow?: { readonly od: number } | undefined }[];
}

/** What no tube can be: a wall of half its diameter, elbows of another size, or stock bent tighter than `leastClr` times its outside diameter. */
export function bentTubeFaults(tube: BentTube, leastClr: number, path: PlanPath, unit: LengthUnit): PlanFault[] {
  return [...thickWall(tube, path, unit), ...otherElbows(tube, path, unit), ...tightBends(tube, leastClr, path, unit)];
}

function thickWall({ od, wall }: BentTube, path: PlanPath, unit: LengthUnit): PlanFault[] {
  if (wall < od / 2) return [];
  const message = `expected a wall thinner than half the tube (${lengthWords(od / 2, unit)}), found ${lengthWords(wall, unit)}`;
  return [{ path: [...path, 'wall'], message }];
}

function otherElbows({ od, bends }: BentTube, path: PlanPath, unit: LengthUnit): PlanFault[] {
  return bends.flatMap(({ elbow }, i): PlanFault[] => {
    if (elbow === undefined || Math.abs(elbow.od - od) < SAME_OD) return [];
    const message = `expected an elbow of the tube's od (${lengthWords(od, unit)}); this one is of pipe of ${lengthWords(elbow.od, unit)}`;
    return [{ path: [...path, 'bends', i, 'elbow', 'nps'], message }];
  });
}

/** Elbows are formed to their radius and not drawn round it: they may be tighter. */
function tightBends({ od, bends }: BentTube, leastClr: number, path: PlanPath, unit: LengthUnit): PlanFault[] {
  const least = leastClr * od;
  return bends.flatMap(({ clr, elbow }, i): PlanFault[] => {
    if (elbow !== undefined || clr >= least - LENGTH_TOLERANCE) return [];
    const limit = `${lengthWords(least, unit)} (tube.least_clr ${tidy(leastClr)} x od)`;
    const mend = 'the inside of a tighter bend thins and kinks; take a larger one, or lower tube.least_clr';
    return [
      {
        path: [...path, 'bends', i, 'clr'],
        message: `expected a CLR of at least ${limit}, found ${lengthWords(clr, unit)}: ${mend}`,
      },
    ];
  });
}
