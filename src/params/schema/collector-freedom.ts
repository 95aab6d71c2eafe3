import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { lengthWords } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField } from '../fields/number-field.js';

/** `freedom` of a collector: how far the routing may move it to win clearance. */
export function collectorFreedomSchema(lengths: Lengths) {
  const { offset, tilt, turns } = DEFAULTS.collector.freedom;
  return z
    .strictObject({
      from: lengths
        .point3('Offset of the inlet plane one way, along the axes of the world [x, y, z]')
        .prefault([offset, offset, offset]),
      to: lengths.point3('Offset the other way [x, y, z]').prefault([offset, offset, offset]),
      tilt: angleField('How far its direction may lean from the planned one', 0, 45).prefault(tilt),
      turns: z.boolean().default(turns).describe('true lets it turn about its axis'),
    })
    .superRefine(({ from, to }, context) => {
      from.forEach((v, i) => {
        const [low, high] = [Math.min(v, to[i]!), Math.max(v, to[i]!)];
        if (low <= 0 && high >= 0) return;
        const words = (mm: number) => lengthWords(mm, lengths.unit);
        const message = `the planned place must be among those allowed: from ${words(v)} to ${words(to[i]!)} along ${'xyz'[i]} leaves out 0`;
        context.addIssue({ code: 'custom', path: ['from', i], message, input: from });
      });
    })
    .describe('How far the routing may move the collector from its place to win clearance; fixed when left out.');
}
