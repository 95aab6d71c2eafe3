import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { lengthWords } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';

/** `jig.bench`: what is printed to tack the steel pieces together on the bench. Left out: nothing of it. */
export function benchSchema(lengths: Lengths) {
  const d = DEFAULTS.bench;
  return z
    .strictObject({
      saddles: z
        .boolean()
        .default(d.saddles)
        .describe('Saddles on a base plate that hold every cut piece of a tube at its true place for tacking'),
      sleeves: z
        .boolean()
        .default(d.sleeves)
        .describe(
          'Half shells that fit a bend from cut to cut, to scribe both cuts of every bent piece along their edges',
        ),
      clocking_rings: z
        .boolean()
        .default(d.clocking_rings)
        .describe('A ring for every joint between two pieces, with a notch over the reference line of either'),
      base: baseSchema(lengths),
      torch_room: lengths
        .atLeastZero('Room for the torch: no saddle nearer to a joint along the tube. Common practice, no source', {
          max: 200,
        })
        .prefault(d.torch_room),
    })
    .optional()
    .describe(
      'Printed jigs for tacking on the bench; an empty section asks for all of them, left out for none. They must come off before full welding: plastic burns and gives fumes.',
    );
}

function baseSchema(lengths: Lengths) {
  const { pitch, hole, thickness } = DEFAULTS.bench.base;
  return z
    .strictObject({
      pitch: lengths
        .atLeastZero('Distance of the holes of the base plate, centre to centre, both ways', { min: 15, max: 100 })
        .prefault(pitch),
      hole: lengths
        .atLeastZero('Diameter of the holes, for the bolts or dowels you have', { min: 2, max: 12 })
        .prefault(hole),
      thickness: lengths.atLeastZero('Thickness of the base plate', { min: 3, max: 50 }).prefault(thickness),
    })
    .superRefine((base, context) => {
      if (2 * base.hole <= base.pitch) return;
      const words = (l: number) => lengthWords(l, lengths.unit);
      const message = `holes of ${words(base.hole)} at a pitch of ${words(base.pitch)} leave too little between them: at most half of the pitch`;
      context.addIssue({ code: 'custom', path: ['hole'], message, input: base });
    })
    .prefault({})
    .describe('The base plate of the saddles, split to the bed.');
}
