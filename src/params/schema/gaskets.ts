import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { nameField } from '../fields/text-field.js';

/** `gaskets`: of the same outlines, with larger openings. */
export function gasketsSchema(lengths: Lengths) {
  const { flanges, plates, grow, thickness, material } = DEFAULTS.gaskets;
  return z
    .strictObject({
      flanges: z.boolean().default(flanges).describe('true for a gasket of every head flange'),
      plates: z.boolean().default(plates).describe('true for a gasket of every bolted plate'),
      grow: lengths
        .atLeastZero('Openings are larger than those of the flange by this all round. Common practice', { max: 10 })
        .prefault(grow),
      thickness: lengths.positive('Thickness of the sheet', { max: 10 }).prefault(thickness),
      material: nameField('Material of the sheet', material).default(material),
    })
    .optional()
    .describe('Gaskets of the same outlines; none when left out.');
}
