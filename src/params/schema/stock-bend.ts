import * as z from 'zod';
import { LENGTH_TOLERANCE } from '../../geometry/tolerance.js';
import { DEFAULTS } from '../defaults.js';
import { MOST_STOCK_BENDS } from '../limits.js';
import type { PlanFault, PlanPath } from '../plan-problem.js';
import type { LengthUnit } from '../units.js';
import { lengthWords, tidy } from '../wording.js';
import type { Lengths } from './length-field.js';
import { angleField } from './number-field.js';

/** `bends`: the bent stock of one size of tube. */
export const stockBendsField = (lengths: Lengths) =>
  z
    .array(stockBendSchema(lengths))
    .min(1)
    .max(MOST_STOCK_BENDS)
    .describe('Bent stock the shop can get, the preferred one first');

function stockBendSchema(lengths: Lengths) {
  return z
    .strictObject({
      clr: lengths.positive('Centreline radius', { max: 1000 }),
      max_angle: angleField('Largest angle that can be cut from it', 1, 180).prefault(DEFAULTS.tube.bend.max_angle),
      leg: lengths.atLeastZero('Straight leg on each end of the bend', { max: 1000 }).prefault(DEFAULTS.tube.bend.leg),
      short_leg: lengths
        .atLeastZero('Leg on the other end of a J-bend; as long as leg when left out', { max: 1000 })
        .optional(),
    })
    .superRefine((bend, context) => {
      if (bend.short_leg === undefined || bend.short_leg <= bend.leg) return;
      const message = `expected a short leg no longer than leg (${lengthWords(bend.leg, lengths.unit)}), found ${lengthWords(bend.short_leg, lengths.unit)}`;
      context.addIssue({ code: 'custom', path: ['short_leg'], message, input: bend });
    })
    .describe('Bent stock.');
}

/** A size of tube with its bent stock, mm. */
interface BentTube {
  readonly od: number;
  readonly wall: number;
  readonly bends: readonly { readonly clr: number }[];
}

/** What no tube can be: a wall of half its diameter, or stock bent tighter than `leastClr` times its outside diameter. */
export function bentTubeFaults(tube: BentTube, leastClr: number, path: PlanPath, unit: LengthUnit): PlanFault[] {
  return [...thickWall(tube, path, unit), ...tightBends(tube, leastClr, path, unit)];
}

function thickWall({ od, wall }: BentTube, path: PlanPath, unit: LengthUnit): PlanFault[] {
  if (wall < od / 2) return [];
  const message = `expected a wall thinner than half the tube (${lengthWords(od / 2, unit)}), found ${lengthWords(wall, unit)}`;
  return [{ path: [...path, 'wall'], message }];
}

function tightBends({ od, bends }: BentTube, leastClr: number, path: PlanPath, unit: LengthUnit): PlanFault[] {
  const least = leastClr * od;
  return bends.flatMap(({ clr }, i): PlanFault[] => {
    if (clr >= least - LENGTH_TOLERANCE) return [];
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
