import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { LARGEST_WELD_ALLOWANCE } from '../limits.js';

/** `weld`: what the shop's butt welds add to a tube and take from it. All are shop values: weld two scraps of the tube and measure. */
export function weldSchema(lengths: Lengths) {
  const { gap, shrinkage } = DEFAULTS.weld;
  const most = { max: LARGEST_WELD_ALLOWANCE };
  return z
    .strictObject({
      gap: lengths.atLeastZero('Root gap left between two pieces before a butt weld. A shop value', most).prefault(gap),
      shrinkage: lengths
        .atLeastZero(
          'How much one butt weld draws its pieces together. A shop value: weld two scraps and measure',
          most,
        )
        .prefault(shrinkage),
    })
    .prefault({})
    .describe('What the butt welds of the tubes add and take: shop values.');
}
