import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { numberField } from '../fields/number-field.js';
import { nameField } from '../fields/text-field.js';
import { MOST_STEPS } from '../limits.js';
import { growthFaults } from '../tube-growth.js';
import { bentTubeFaults, stockBendsField } from './stock-bend.js';
import { stockSticksField } from './stock-stick.js';
import { sizeFields, withSize } from './tube-size.js';

/** `tube`: the stock the primaries are made of. */
export function tubeSchema(lengths: Lengths) {
  return z
    .strictObject({
      ...sizeFields(lengths, ' of the primaries', 200),
      material: nameField('Material of the tube, as the cut list prints it', '304 stainless'),
      bends: stockBendsField(lengths),
      sticks: stockSticksField(lengths),
      steps: stepsField(lengths),
      least_clr: numberField(
        'Least centreline radius of any bend, over the outside diameter of its tube',
        0.6,
        5,
      ).default(DEFAULTS.tube.least_clr),
      min_straight: lengths.atLeastZero('Least straight between two bends').prefault(DEFAULTS.tube.min_straight),
      min_straight_port: lengths
        .atLeastZero('Least straight from the outer face of the flange')
        .prefault(DEFAULTS.tube.min_straight_port),
      min_straight_inlet: lengths
        .atLeastZero('Least straight before the collector inlet')
        .prefault(DEFAULTS.tube.min_straight_inlet),
    })
    .transform((tube, context) => withSize(tube, lengths, context))
    .superRefine((tube, context) => {
      const sizes = [tube, ...tube.steps];
      const faults = sizes.flatMap((size, i) => {
        const path = i === 0 ? [] : ['steps', i - 1];
        const growth = i === 0 ? [] : growthFaults(sizes[i - 1]!, size, 'a larger tube', path, lengths.unit);
        return [...bentTubeFaults(size, tube.least_clr, path, lengths.unit), ...growth];
      });
      for (const { path, message } of faults) {
        context.addIssue({ code: 'custom', path: [...path], message, input: tube });
      }
    })
    .describe('The stock the primaries are made of.');
}

function stepsField(lengths: Lengths) {
  return z
    .array(
      z
        .strictObject({
          at: lengths.positive('Where the primary grows: running length from the head face'),
          within: lengths
            .atLeastZero('How far to either side the joint may fall, to find a straight', { max: 500 })
            .prefault(DEFAULTS.tube.step.within),
          ...sizeFields(lengths, ' from there on', 200),
          bends: stockBendsField(lengths),
          sticks: stockSticksField(lengths),
        })
        .transform((step, context) => withSize(step, lengths, context))
        .describe('A larger tube from there on.'),
    )
    .max(MOST_STEPS)
    .default([])
    .describe(`Where the primaries grow, nearest the head first; at most ${MOST_STEPS}`);
}
