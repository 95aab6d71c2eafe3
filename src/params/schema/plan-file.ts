import * as z from 'zod';
import { expected } from '../faults/wording.js';
import { lengthsIn } from '../fields/length-field.js';
import { nameField } from '../fields/text-field.js';
import type { LengthUnit } from '../units.js';
import { accessSchema } from './access.js';
import { collectorSchema, collectorsSchema } from './collector.js';
import { drawingSchema } from './drawing.js';
import { engineSchema } from './engine.js';
import { existingSchema } from './existing.js';
import { flangeSchema } from './flange.js';
import { gasketsSchema } from './gaskets.js';
import { headSchema, headsSchema } from './head.js';
import { jigSchema } from './jig.js';
import { keepOutsSchema } from './keep-out.js';
import { patternsSchema } from './patterns.js';
import { platesSchema } from './plates.js';
import { runnersSchema } from './runners.js';
import { secondariesSchema } from './secondaries.js';
import { stockSchema } from './stock.js';
import { tubeSchema } from './tube.js';
import { tuningSchema } from './tuning.js';
import { weldSchema } from './weld.js';

/** The format this program reads: the number after `evenrun:`. */
const FORMAT = 1;

/** The schema of a plan file whose plain numbers are in a unit. What it gives is in mm, rad and unit directions. */
export function planFileSchema(unit: LengthUnit) {
  const lengths = lengthsIn(unit);
  return z
    .strictObject({
      evenrun: z
        .literal(FORMAT, { error: (issue) => expected(`${FORMAT}, the format this program reads`, issue.input) })
        .describe('Version of the plan format'),
      name: nameField('Name of the header: printed on parts and reports', 'street four'),
      units: z.enum(['mm', 'in']).describe('Unit of every plain number that is a length'),
      engine: engineSchema(lengths),
      head: headSchema(lengths).optional(),
      heads: headsSchema(lengths).optional(),
      flange: flangeSchema(lengths),
      tube: tubeSchema(lengths),
      collector: collectorSchema(lengths).optional(),
      collectors: collectorsSchema(lengths).optional(),
      secondaries: secondariesSchema(lengths).optional(),
      runners: runnersSchema(lengths),
      ground: lengths.coordinate('Height of the ground: no tube comes near or under it').optional(),
      keep_out: keepOutsSchema(lengths),
      access: accessSchema(lengths),
      jig: jigSchema(lengths),
      plates: platesSchema(lengths),
      gaskets: gasketsSchema(lengths),
      drawing: drawingSchema(lengths),
      weld: weldSchema(lengths),
      stock: stockSchema(lengths),
      patterns: patternsSchema(lengths),
      tuning: tuningSchema(lengths),
      existing: existingSchema(lengths).optional(),
    })
    .meta({
      title: 'evenrun plan',
      description: 'The measured ports, the place of the collector and the target length of an equal-length header.',
      allOf: [exactlyOne('head', 'heads'), exactlyOne('collector', 'collectors')],
    });
}

const exactlyOne = (...names: readonly string[]) => ({ oneOf: names.map((name) => ({ required: [name] })) });

/** A plan file after the schema: defaults filled in, mm, rad, unit directions; sections not yet put together. */
export type PlanFile = z.output<ReturnType<typeof planFileSchema>>;
