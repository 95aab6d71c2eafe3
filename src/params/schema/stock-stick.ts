import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { countField, numberField } from '../fields/number-field.js';
import { nameField } from '../fields/text-field.js';
import { MOST_AVAILABLE, MOST_PRICE, MOST_STOCK_STICKS } from '../limits.js';

/** What any kind of stock may have. */
export const offerFields = (example: string) => ({
  name: nameField('Name for the shopping list; made from its sizes when left out', example).optional(),
  price: numberField('Price of one, in stock.currency', 0, MOST_PRICE).optional(),
  available: countField('How many there are; as many as wanted when left out', 0, MOST_AVAILABLE).optional(),
});

/** `sticks`: the straight stock of one size of tube. */
export const stockSticksField = (lengths: Lengths) =>
  z
    .array(
      z
        .strictObject({
          length: lengths.positive('Length of the stick'),
          ...offerFields('2 m stick'),
        })
        .describe('Straight stock.'),
    )
    .min(1)
    .max(MOST_STOCK_STICKS)
    .prefault([...DEFAULTS.tube.sticks])
    .describe('Straight stock the shop can get. Common practice: mills cut 6 m, shops sell 1 to 2 m');
