import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { countField, numberField } from '../fields/number-field.js';
import { MOST_BOLTS } from '../limits.js';
import { EXPANSION_RANGE, FREEZING } from '../tables/expansion.js';

/** A temperature in degrees Celsius; gives K. */
const temperature = (about: string, from: number = EXPANSION_RANGE.from, to: number = EXPANSION_RANGE.to) =>
  numberField(about, from, to)
    .transform((t) => t + FREEZING)
    .describe(`${about}. Degrees Celsius.`);

/** `flange.growth`: temperatures and metals that decide how much room the bolt holes need. */
export function growthSchema() {
  const { cold, fixed, holes } = DEFAULTS.flange.growth;
  return z
    .strictObject({
      head_material: z.enum(['aluminium', 'cast_iron']).describe('Metal of the cylinder head'),
      flange_material: z
        .enum(['carbon_steel', 'austenitic', 'ferritic'])
        .optional()
        .describe("Kind of the flange's steel; by the words of flange.material when left out"),
      cold: temperature('Temperature at which the flange is bolted on').prefault(cold),
      head_hot: temperature('The head when hot', 20, 400),
      flange_hot: temperature('The flange when hot', 20),
      fixed: z
        .union([z.literal('middle'), countField('A bolt by its number in the list of bolts', 1, MOST_BOLTS)])
        .default(fixed)
        .describe('The bolt that stays: the middle one, or one by its number in the list of bolts, from 1'),
      holes: z
        .enum(['slot', 'round'])
        .default(holes)
        .describe('Slots along the line from the fixed bolt, or larger round holes'),
    })
    .describe('Room in the bolt holes for what the hot flange grows beyond the head.');
}
