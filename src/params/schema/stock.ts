import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { numberField } from '../fields/number-field.js';
import { nameField } from '../fields/text-field.js';
import { MOST_OWN_STOCK } from '../limits.js';
import { stockBendSchema } from './stock-bend.js';

/** `stock`: how it is cut, what is made least, and the shop's own tables. */
export function stockSchema(lengths: Lengths) {
  const { kerf, grip, least_offcut, minimise } = DEFAULTS.stock;
  return z
    .strictObject({
      kerf: lengths.atLeastZero('Width of the saw cut. Common practice', { max: 10 }).prefault(kerf),
      grip: lengths
        .atLeastZero("Shortest end the saw's vice holds: lost on every stick. Common practice", { max: 500 })
        .prefault(grip),
      least_offcut: lengths
        .atLeastZero('Offcuts at least this long are kept, shorter ones are scrap')
        .prefault(least_offcut),
      minimise: z
        .enum(['pieces', 'price'])
        .default(minimise)
        .describe('pieces for the fewest pieces of stock, price for the cheapest: that needs every price'),
      currency: nameField('Currency of the prices, as the shopping list prints it', 'EUR').optional(),
      density: numberField(
        'Density of the tube, kg/m3, where its material is not known by its name',
        500,
        25_000,
      ).optional(),
      tables: tablesSchema(lengths),
    })
    .prefault({})
    .describe('Stock: saw, what is made least, and own tables.');
}

function tablesSchema(lengths: Lengths) {
  return z
    .strictObject({
      sizes: z
        .array(
          z
            .strictObject({
              name: nameField('Name, for size of the tubes', 'thin 42'),
              od: lengths.positive('Outside diameter', { max: 300 }),
              wall: lengths.positive('Wall thickness', { max: 20 }),
            })
            .describe('A size of tube.'),
        )
        .max(MOST_OWN_STOCK)
        .superRefine(ownNames)
        .default([])
        .describe('Sizes of tube by name'),
      bends: z
        .array(stockBendSchema(lengths))
        .max(MOST_OWN_STOCK)
        .superRefine(ownNames)
        .default([])
        .describe('Bent stock by name, for use under bends of the tubes'),
    })
    .prefault({})
    .describe("The shop's own stock, named once and used under tube, its steps and secondaries.");
}

interface Issues {
  readonly addIssue: (issue: { code: 'custom'; path: (string | number)[]; message: string; input: unknown }) => void;
}

/** Every entry has a name of its own. */
function ownNames(entries: readonly { readonly name?: string | undefined }[], context: Issues): void {
  entries.forEach(({ name }, i) => {
    const message =
      name === undefined
        ? 'missing; expected a name: it is how the tubes call this entry'
        : `the name ${JSON.stringify(name)} is taken by an earlier entry; each needs its own`;
    if (name !== undefined && entries.findIndex((e) => e.name === name) === i) return;
    context.addIssue({ code: 'custom', path: [i, 'name'], message, input: entries });
  });
}
