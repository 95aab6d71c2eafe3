import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { stockBendsField } from './stock-bend.js';
import { stockSticksField } from './stock-stick.js';
import { sizeFields, withSize } from './tube-size.js';

/** `secondaries`: the tubes from one collector's outlet to the next collector. */
export function secondariesSchema(lengths: Lengths) {
  return z
    .strictObject({
      length: lengths.positive(
        'Target length of every secondary, from the outlet of one collector to the inlet plane of the next',
      ),
      spread: lengths.positive('Largest allowed spread: longest minus shortest').prefault(DEFAULTS.runners.spread),
      ...sizeFields(lengths, ' of the secondaries', 300),
      bends: stockBendsField(lengths),
      sticks: stockSticksField(lengths),
    })
    .transform((secondaries, context) => withSize(secondaries, lengths, context))
    .describe(
      'The tubes between collectors, of the material of the primaries: needed when a collector is fed by others.',
    );
}
