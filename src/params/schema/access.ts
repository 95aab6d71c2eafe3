import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';

/** `access`: for which tools the tubes leave room. */
export function accessSchema(lengths: Lengths) {
  const { bolts, bolt_depth, plugs } = DEFAULTS.access;
  return z
    .strictObject({
      bolts: z.boolean().default(bolts).describe('true leaves room for a straight socket on every flange bolt'),
      bolt_depth: lengths
        .positive('How far from the flange the socket on a bolt needs room', { max: 500 })
        .prefault(bolt_depth),
      plugs: z.boolean().default(plugs).describe('true leaves room for the socket and boot of every plug'),
    })
    .prefault({})
    .describe('Room for tools that no tube may enter.');
}
