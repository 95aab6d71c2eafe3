import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { countField } from '../fields/number-field.js';
import { MOST_CYLINDERS } from '../limits.js';

/** `flange.style`: how the plate hangs together. */
export function styleSchema(lengths: Lengths) {
  const { neck, slot, bridge, separate } = DEFAULTS.flange;
  return z
    .discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('one_piece').describe('One plate for all ports of a head') }),
      z.strictObject({
        kind: z.literal('necked').describe('Cut in from both edges between ports against warping'),
        width: lengths.positive('Metal left between the two cuts', { max: 200 }).prefault(neck.width),
        length: lengths.positive('Length of the neck along the line of ports', { max: 200 }).prefault(neck.length),
      }),
      z.strictObject({
        kind: z.literal('slotted').describe('A closed slot between ports against warping'),
        width: lengths.positive('Width of the slot', { max: 50 }).prefault(slot.width),
        tie: lengths.positive('Metal left at either end of the slot', { max: 100 }).prefault(slot.tie),
      }),
      z.strictObject({
        kind: z.literal('bridged').describe('A pad for each port, joined by bars along the bolts between them'),
        width: lengths.positive('Width of the bars', { max: 200 }).prefault(bridge.width),
      }),
      z.strictObject({
        kind: z.literal('separate').describe('A flange for each cylinder, or for each group'),
        groups: z
          .array(z.array(countField('Cylinder', 1, MOST_CYLINDERS)).min(1))
          .min(1)
          .optional()
          .describe('Cylinders that share a flange, such as [[1, 2], [3, 4]]; every cylinder its own when left out'),
        gap: lengths.atLeastZero('Least gap between neighbouring flanges', { max: 100 }).prefault(separate.gap),
      }),
    ])
    .prefault(DEFAULTS.flange.style)
    .describe('How the plate hangs together.');
}
