import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField } from '../fields/number-field.js';

/** `slip` of a collector. */
export function slipSchema(lengths: Lengths) {
  const { slip } = DEFAULTS.collector;
  return z
    .strictObject({
      overlap: lengths.positive('How far each sleeve reaches back over its tube', { max: 200 }).prefault(slip.overlap),
      fit: lengths.atLeastZero('Gap per side between sleeve and tube', { max: 5 }).prefault(slip.fit),
    })
    .describe('Sleeves that slip over the ends of the tubes, which are not welded there. Held by springs or tabs.');
}

/** `branch` of a collector. */
export function branchSchema(lengths: Lengths) {
  return z
    .strictObject({
      od: lengths.positive('Outside diameter of the branch', { max: 300 }),
      wall: lengths.positive("Wall of the branch; the outlet's when left out", { max: 20 }).optional(),
      angle: angleField('Between the branch and the way of the gas', 20, 90).prefault(DEFAULTS.collector.branch.angle),
      at: lengths.positive("Where its axis meets the collector's, from the inlet plane", { max: 5000 }),
      clocking: angleField("About the collector's axis from inlet 1, right-handed about the gas", -360, 360).prefault(
        DEFAULTS.collector.branch.clocking,
      ),
      length: lengths.positive("From the collector's axis to its open end, along its own axis", { max: 1000 }),
      on: z
        .enum(['cone', 'tail'])
        .default(DEFAULTS.collector.branch.on)
        .describe('What it leaves: the cone or the tail'),
    })
    .describe('A pipe that leaves the collector through its side, to a wastegate say.');
}
