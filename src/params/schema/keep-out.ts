import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { directionField } from '../fields/direction-field.js';
import type { Lengths } from '../fields/length-field.js';
import { degreesField } from '../fields/number-field.js';
import { fileField, nameField } from '../fields/text-field.js';
import { MOST_KEEP_OUTS } from '../limits.js';

/** `keep_out`: what stands in the bay that no tube may come near. */
export function keepOutsSchema(lengths: Lengths) {
  return z
    .array(
      z.discriminatedUnion('kind', [
        boxSchema(lengths),
        roundSchema(lengths, 'cylinder', 'A round bar or pipe with flat ends.'),
        roundSchema(lengths, 'capsule', 'A round bar, pipe or hose with ends like half balls.'),
        halfSpaceSchema(lengths),
        scanSchema(lengths),
      ]),
    )
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
  heat: z
    .boolean()
    .default(DEFAULTS.keep_out.heat)
    .describe('true for what must stay cool: keeps at least runners.heat_distance'),
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

const END = { cylinder: ['one end', 'the other end'], capsule: ['one end ball', 'the other end ball'] } as const;

function roundSchema<K extends 'cylinder' | 'capsule'>(lengths: Lengths, kind: K, about: string) {
  return z
    .strictObject({
      kind: z.literal(kind),
      ...common(lengths),
      from: lengths.point3(`Centre of ${END[kind][0]} [x, y, z]`),
      to: lengths.point3(`Centre of ${END[kind][1]} [x, y, z]`),
      diameter: lengths.positive('Diameter', { max: 2000 }),
    })
    .superRefine(({ from, to }, context) => {
      if (from.some((v, i) => v !== to[i])) return;
      const message = `the ${kind} has no length: from and to are the same point`;
      context.addIssue({ code: 'custom', path: ['to'], message, input: from });
    })
    .describe(about);
}

function halfSpaceSchema(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('half_space'),
      ...common(lengths),
      point: lengths.point3('Any point of the plane [x, y, z]'),
      normal: directionField('Square to the plane, to the free side [x, y, z]'),
    })
    .describe('Everything behind a plane: a firewall, a floor.');
}

function scanSchema(lengths: Lengths) {
  const { at, turn } = DEFAULTS.keep_out.mesh;
  const degrees = (axis: string) => degreesField(`About ${axis}`, -360, 360);
  return z
    .strictObject({
      kind: z.literal('mesh'),
      ...common(lengths),
      file: fileField('STL file of the scan or model, beside the plan or by its path from there', 'engine-bay.stl'),
      unit: z.enum(['mm', 'in', 'm']).describe('Unit of the numbers in the file: STL does not say'),
      at: lengths.point3("Where the file's origin lies in the world [x, y, z]").prefault([at, at, at]),
      turn: z
        .tuple([degrees('x'), degrees('y'), degrees('z')])
        .prefault([turn, turn, turn])
        .describe("Degrees it is turned about its own origin: about the world's x, then y, then z; right-handed"),
    })
    .describe('A scan or model of the bay as STL; it need not be closed.');
}
