import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField } from '../fields/number-field.js';
import { nameField } from '../fields/text-field.js';

/** Most dowels, and most notches, of a plan. */
const MOST = 50;

const headField = () => nameField('Name of the head it belongs to; every head when left out', 'front head').optional();

/** `flange.dowels`: holes for dowels. */
export function dowelsSchema(lengths: Lengths) {
  return z
    .array(
      z.strictObject({
        at: lengths.point2('Centre of the dowel on the face [x, y]'),
        diameter: lengths.positive('Finished hole, reamed', { max: 50 }),
        head: headField(),
      }),
    )
    .max(MOST)
    .default([])
    .describe('Dowel holes: drilled and reamed, never cut.');
}

/** `flange.notches`: room cut into the outer edge. */
export function notchesSchema(lengths: Lengths) {
  const { angle, tip } = DEFAULTS.flange.vee;
  return z
    .array(
      z.discriminatedUnion('kind', [
        z.strictObject({
          kind: z.literal('round').describe('A part of a circle'),
          at: lengths.point2('Middle of the circle on the face [x, y]'),
          radius: lengths.positive('Radius of the circle', { max: 200 }),
          head: headField(),
        }),
        z.strictObject({
          kind: z.literal('vee').describe('A vee with a rounded tip'),
          at: lengths.point2('Tip of the vee on the face [x, y], before it is rounded'),
          towards: angleField('The way the vee opens, from x counter-clockwise', -360, 360),
          angle: angleField('Angle of the vee', 10, 170).prefault(angle),
          tip: lengths.positive('Radius of its tip', { max: 50 }).prefault(tip),
          head: headField(),
        }),
      ]),
    )
    .max(MOST)
    .default([])
    .describe('Room cut into the outer edge, to clear something.');
}
