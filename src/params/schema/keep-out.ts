import * as z from 'zod';
import { MOST_KEEP_OUTS } from '../limits.js';
import type { Lengths } from './length-field.js';
import { nameField } from './text-field.js';

/** `keep_out`: what stands in the bay that no tube may come near. */
export function keepOutsSchema(lengths: Lengths) {
  return z
    .array(z.discriminatedUnion('kind', [boxSchema(lengths), cylinderSchema(lengths)]))
    .max(MOST_KEEP_OUTS)
    .superRefine((keepOuts, context) => {
      keepOuts.forEach((k, i) => {
        if (keepOuts.findIndex((other) => other.name === k.name) === i) return;
        const message = `the name ${JSON.stringify(k.name)} is taken by an earlier keep-out; each needs its own`;
        context.addIssue({ code: 'custom', path: [i, 'name'], message, input: keepOuts });
      });
    })
    .default([])
    .describe('What stands in the bay that no tube may come near.');
}

const common = (lengths: Lengths) => ({
  name: nameField('What it is, as reports name it', 'steering shaft'),
  clearance: lengths.atLeastZero("Least gap from a tube's skin; runners.clearance when left out").optional(),
});

function boxSchema(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('box'),
      ...common(lengths),
      from: lengths.point3('One corner [x, y, z]'),
      to: lengths.point3('The opposite corner [x, y, z]'),
    })
    .superRefine((box, context) => {
      const flat = (['x', 'y', 'z'] as const).filter((_, i) => box.from[i] === box.to[i]);
      if (flat.length === 0) return;
      const message = `the box has no thickness along ${flat.join(' and ')}: from and to must differ in x, y and z`;
      context.addIssue({ code: 'custom', path: ['to'], message, input: box });
    })
    .describe('A box along the world axes.');
}

function cylinderSchema(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('cylinder'),
      ...common(lengths),
      from: lengths.point3('Centre of one end [x, y, z]'),
      to: lengths.point3('Centre of the other end [x, y, z]'),
      diameter: lengths.positive('Diameter', { max: 2000 }),
    })
    .superRefine((cylinder, context) => {
      if (cylinder.from.some((v, i) => v !== cylinder.to[i])) return;
      const message = 'the cylinder has no length: from and to are the same point';
      context.addIssue({ code: 'custom', path: ['to'], message, input: cylinder });
    })
    .describe('A round bar or pipe with flat ends.');
}
