import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { expected } from '../faults/wording.js';
import { directionField } from '../fields/direction-field.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField, countField } from '../fields/number-field.js';
import { nameField } from '../fields/text-field.js';
import { MOST_CYLINDERS, MOST_INLETS } from '../limits.js';
import { branchSchema, slipSchema } from './collector-fittings.js';
import { collectorFreedomSchema } from './collector-freedom.js';
import { outletSchema } from './collector-outlet.js';

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
  centre: z
    .enum(['open', 'spike'])
    .default(DEFAULTS.collector.centre)
    .describe('The hole the tubes leave between them at the inlet plane: open, or closed by a spike'),
  slip: slipSchema(lengths).optional(),
  branch: branchSchema(lengths).optional(),
  freedom: collectorFreedomSchema(lengths).optional(),
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

/** `collectors`: several collectors, each with its name and with its cylinders or the collectors that feed it. */
export function collectorsSchema(lengths: Lengths) {
  return z
    .array(
      z
        .strictObject({
          name: nameField('Name of the collector', 'front'),
          cylinders: cylinders().optional(),
          from: z
            .array(nameField('Name of a collector', 'front'))
            .min(1)
            .max(MOST_INLETS)
            .optional()
            .describe('Instead of cylinders: the collectors whose secondaries join here, by name'),
          ...fields(lengths),
        })
        .superRefine((collector, context) => {
          const fault = (field: string, message: string) => {
            context.addIssue({ code: 'custom', path: [field], message, input: collector });
          };
          if (collector.cylinders === undefined && collector.from === undefined) {
            fault('cylinders', 'missing; list the cylinders that join here, or under from the collectors that feed it');
          }
          if (collector.cylinders !== undefined && collector.from !== undefined) {
            fault('from', 'a collector takes cylinders or is fed from others, not both; leave one out');
          }
        })
        .meta({ oneOf: [{ required: ['cylinders'] }, { required: ['from'] }] }),
    )
    .min(1)
    .max(MOST_CYLINDERS)
    .describe('Several collectors, each with its name and its cylinders, or with the collectors that feed it.');
}

function orderField() {
  const place = z.union([countField('Cylinder', 1, MOST_CYLINDERS), nameField('Collector', 'front')], {
    error: (issue) => expected(`a cylinder from 1 to ${MOST_CYLINDERS}, or the name of a collector`, issue.input),
  });
  return z
    .union([z.enum(['free', 'firing']), z.array(place).min(1).max(MOST_INLETS)], {
      error: (issue) => expected('free, firing, or the cylinders at inlet 1, 2, ... such as [1, 3, 4, 2]', issue.input),
    })
    .describe(
      'Which tube meets which inlet: free lets the routing choose, firing goes round in firing order, a list gives the cylinder at inlet 1, 2, ...; for a collector fed by others free or a list of their names',
    );
}
