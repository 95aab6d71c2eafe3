import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { numberField } from '../fields/number-field.js';

const HEAVIEST = 1000;

/** `runners.weights`: what makes one route better than another. */
export function routeWeightsSchema() {
  const weights = DEFAULTS.runners.weights;
  const weight = (about: string, usual: number) => numberField(about, 0, HEAVIEST).default(usual);
  return z
    .strictObject({
      bend: weight('Each bend: a cut and a weld more', weights.bend),
      turning: weight('Each radian of bending', weights.turning),
      tightness: weight('Each radian at a CLR of one od; less for larger radii', weights.tightness),
      closeness: weight('A gap at its limit', weights.closeness),
      scrap: weight('Each piece of stock begun', weights.scrap),
    })
    .prefault({})
    .describe('What makes one route better than another: 0 does not count, twice as much counts twice.');
}
