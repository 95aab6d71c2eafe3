import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { MOST_STOCK_BENDS } from '../limits.js';
import { lengthWords } from '../wording.js';
import type { Lengths } from './length-field.js';
import { angleField } from './number-field.js';
import { nameField } from './text-field.js';

/** Least centreline radius of a bend over the tube's outside diameter: below it the inside of the bend all but vanishes and kinks. */
export const LEAST_CLR_PER_OD = 0.75;

/** `tube`: the stock the primaries are made of. */
export function tubeSchema(lengths: Lengths) {
  return z
    .strictObject({
      od: lengths.positive('Outside diameter of the primaries', { max: 200 }),
      wall: lengths.positive('Wall thickness', { max: 20 }),
      material: nameField('Material of the tube, as the cut list prints it', '304 stainless'),
      bends: z
        .array(stockBendSchema(lengths))
        .min(1)
        .max(MOST_STOCK_BENDS)
        .describe('Bent stock the shop can get, the preferred one first'),
      min_straight: lengths.atLeastZero('Least straight between two bends').prefault(DEFAULTS.tube.min_straight),
      min_straight_port: lengths
        .atLeastZero('Least straight from the outer face of the flange')
        .prefault(DEFAULTS.tube.min_straight_port),
      min_straight_inlet: lengths
        .atLeastZero('Least straight before the collector inlet')
        .prefault(DEFAULTS.tube.min_straight_inlet),
    })
    .superRefine((tube, context) => {
      const fault = (path: (string | number)[], message: string) => {
        context.addIssue({ code: 'custom', path, message, input: tube });
      };
      const words = (mm: number) => lengthWords(mm, lengths.unit);
      if (tube.wall >= tube.od / 2) {
        fault(
          ['wall'],
          `expected a wall thinner than half the tube (${words(tube.od / 2)}), found ${words(tube.wall)}`,
        );
      }
      const least = LEAST_CLR_PER_OD * tube.od;
      tube.bends.forEach((bend, i) => {
        if (bend.clr >= least) return;
        const reason = 'the inside of a tighter bend would vanish or kink';
        const limit = `${words(least)} (${LEAST_CLR_PER_OD} x od)`;
        fault(['bends', i, 'clr'], `expected a CLR of at least ${limit}, found ${words(bend.clr)}: ${reason}`);
      });
    })
    .describe('The stock the primaries are made of.');
}

function stockBendSchema(lengths: Lengths) {
  return z
    .strictObject({
      clr: lengths.positive('Centreline radius', { max: 1000 }),
      max_angle: angleField('Largest angle that can be cut from it', 1, 180).prefault(DEFAULTS.tube.bend.max_angle),
      leg: lengths.atLeastZero('Straight leg on each end of the bend', { max: 1000 }).prefault(DEFAULTS.tube.bend.leg),
    })
    .describe('Bent stock.');
}
