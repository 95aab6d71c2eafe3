import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { benchSchema } from './jig-bench.js';
import { printSchema } from './jig-print.js';
import type { Lengths } from './length-field.js';

/** `jig`: the printer and the printed mock-up. */
export function jigSchema(lengths: Lengths) {
  const { bed, fit, plate, key_length, strut, gap, chamfer } = DEFAULTS.jig;
  const side = (about: string) => lengths.positive(about, { max: 2000 });
  return z
    .strictObject({
      bed: z
        .tuple([side('x'), side('y'), side('height')])
        .prefault([bed, bed, bed])
        .describe('Usable size of the printer: x, y, height'),
      fit: lengths.atLeastZero('Gap per side where printed parts slide together', { max: 2 }).prefault(fit),
      plate: lengths.positive('Thickness of printed plates', { max: 50 }).prefault(plate),
      key_length: lengths.positive("Length of the key at a dummy tube's joint", { max: 100 }).prefault(key_length),
      strut: lengths.positive('Diameter of the struts of the collector holder', { max: 100 }).prefault(strut),
      gap: lengths.atLeastZero('Least gap between parts on a build plate. Common practice', { max: 100 }).prefault(gap),
      chamfer: lengths
        .atLeastZero("Chamfer at the bed's edge of the fit coupon, against a first layer that is squeezed out", {
          max: 2,
        })
        .prefault(chamfer),
      print: printSchema(lengths),
      bench: benchSchema(lengths),
    })
    .prefault({})
    .describe('The printer and the printed mock-up.');
}
