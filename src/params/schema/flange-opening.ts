import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';

/** Largest growth of an opening, mm. */
export const LARGEST_ENLARGE = 20;

/** `flange.opening`: what the openings are cut to. */
export function openingSchema(lengths: Lengths) {
  const enlarge = lengths
    .atLeastZero('The port side is the port grown by this all round; flange.enlarge when left out', {
      max: LARGEST_ENLARGE,
    })
    .optional();
  return z
    .discriminatedUnion('match', [
      z.strictObject({ match: z.literal('port').describe('The outline of the port'), enlarge }),
      z.strictObject({
        match: z.literal('tube_od').describe('A socket for the tube, which is welded in it'),
        fit: lengths
          .atLeastZero('Clearance per side between tube and socket', { max: 2 })
          .prefault(DEFAULTS.flange.socket_fit),
      }),
      z.strictObject({
        match: z.literal('tube_bore').describe("The tube's bore: the tube is welded on the outer face"),
      }),
      z.strictObject({
        match: z
          .literal('transition')
          .describe('The port at the head, the tube at the outer face; the cut leaves what is to be blended by hand'),
        enlarge,
        outer: z
          .enum(['tube_bore', 'tube_od'])
          .default('tube_bore')
          .describe('What the outer face is blended to: the bore for a butt weld, the outside for a socket'),
      }),
    ])
    .prefault(DEFAULTS.flange.opening)
    .describe('What the openings are cut to.');
}
