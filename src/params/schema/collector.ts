import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { MOST_CYLINDERS, MOST_INLETS } from '../limits.js';
import { expected } from '../wording.js';
import { directionField } from './direction-field.js';
import type { Lengths } from './length-field.js';
import { angleField, countField } from './number-field.js';
import { nameField } from './text-field.js';

const cylinders = () =>
  z
    .array(countField('Cylinder', 1, MOST_CYLINDERS))
    .min(1)
    .max(MOST_INLETS)
    .describe(`Cylinders that join here, 1 to ${MOST_INLETS}`);

const fields = (lengths: Lengths) => ({
  at: lengths.point3('Centre of the inlet plane [x, y, z]'),
  direction: directionField('The way the gas runs through the collector [x, y, z]'),
  clocking: angleField("Turns inlet 1 about the collector's axis, right-handed about the gas", -360, 360).prefault(
    DEFAULTS.collector.clocking,
  ),
  pattern: z.enum(['ring']).default(DEFAULTS.collector.pattern).describe('How the inlets stand: in a ring'),
  gap: lengths
    .atLeastZero('Gap between neighbouring tubes at the inlet plane', { max: 200 })
    .prefault(DEFAULTS.collector.gap),
  merge_half_angle: angleField(
    `Angle between an inlet and the collector's axis; ${DEFAULTS.collector.merge_half_angle} when left out, 0 for a single inlet`,
    0,
    30,
  ).optional(),
  order: orderField().default(DEFAULTS.collector.order),
  outlet: outletSchema(lengths),
});

/** `collector`: the one collector of a plan. */
export function collectorSchema(lengths: Lengths) {
  return z
    .strictObject({
      name: nameField('Name of the collector', DEFAULTS.collector.name).default(DEFAULTS.collector.name),
      cylinders: cylinders().optional().describe('Cylinders that join here; every port when left out'),
      ...fields(lengths),
    })
    .describe('Where the primaries join.');
}

/** `collectors`: several collectors, each with its name and its cylinders. */
export function collectorsSchema(lengths: Lengths) {
  return z
    .array(
      z.strictObject({
        name: nameField('Name of the collector', 'front'),
        cylinders: cylinders(),
        ...fields(lengths),
      }),
    )
    .min(1)
    .max(MOST_CYLINDERS)
    .describe('Several collectors, each with its name and its cylinders.');
}

function orderField() {
  return z
    .union([z.enum(['free', 'firing']), z.array(z.int().min(1).max(MOST_CYLINDERS)).min(1).max(MOST_INLETS)], {
      error: (issue) => expected('free, firing, or the cylinders at inlet 1, 2, ... such as [1, 3, 4, 2]', issue.input),
    })
    .describe(
      'Which primary meets which inlet: free lets the routing choose, firing goes round in firing order, a list gives the cylinder at inlet 1, 2, ...',
    );
}

function outletSchema(lengths: Lengths) {
  return z
    .strictObject({
      od: lengths.positive('Outside diameter of the outlet', { max: 500 }),
      wall: lengths.positive('Wall of the cone and the outlet; tube.wall when left out', { max: 20 }).optional(),
      cone_length: lengths.positive('Length of the cone from the merge to the outlet', { max: 2000 }),
      tail: lengths.atLeastZero('Straight pipe after the cone', { max: 2000 }).prefault(DEFAULTS.collector.tail),
    })
    .superRefine((outlet, context) => {
      if (outlet.wall === undefined || outlet.wall < outlet.od / 2) return;
      const message = 'expected a wall thinner than half the outlet';
      context.addIssue({ code: 'custom', path: ['wall'], message, input: outlet });
    })
    .describe('The pipe the collector ends in.');
}
