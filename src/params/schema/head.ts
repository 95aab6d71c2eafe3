import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { lengthWords } from '../faults/wording.js';
import { directionField } from '../fields/direction-field.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField, countField } from '../fields/number-field.js';
import { nameField } from '../fields/text-field.js';
import { headTraceSchema } from '../fields/trace.js';
import { MOST_BOLTS, MOST_CYLINDERS, MOST_PLUGS } from '../limits.js';
import { portShapeField } from '../port-shape/table.js';
import { BOLT_THREADS, threadDiameter } from '../tables/bolt-holes.js';

/** Least z of a port's unit direction: the primary leaves the face at 60 degrees from straight out at most. */
const LEAST_LEAVING = 0.5;

const fields = (lengths: Lengths) => ({
  ports: z.array(portSchema(lengths)).min(1).max(MOST_CYLINDERS).optional().describe('The ports on the head face'),
  bolts: z
    .array(boltSchema(lengths))
    .max(MOST_BOLTS)
    .optional()
    .describe('The bolts or studs that hold the flange; with a trace those it does not have'),
  trace: headTraceSchema(lengths).optional(),
  plugs: z
    .array(plugSchema(lengths))
    .max(MOST_PLUGS)
    .default([])
    .describe('Spark plugs whose socket and boot need room'),
  body: bodySchema(lengths).optional(),
});

/** Ports and bolts in the plan, or the drawing that has them. */
const SOURCE = { oneOf: [{ required: ['ports', 'bolts'] }, { required: ['trace'] }] };

function oneSource(
  head: { readonly ports?: unknown; readonly bolts?: unknown; readonly trace?: unknown },
  context: z.core.$RefinementCtx,
): void {
  const fault = (field: string, message: string) =>
    context.addIssue({ code: 'custom', path: [field], message, input: head });
  const { ports, bolts, trace } = head;
  if (ports !== undefined && trace !== undefined) fault('ports', 'give the ports or a trace that has them, not both');
  if (ports === undefined && trace === undefined)
    fault('ports', 'missing; list the ports, or name a drawing under trace');
  if (bolts === undefined && trace === undefined)
    fault('bolts', 'missing; list the bolts, or name a drawing under trace');
}

/** `head`: one head whose face is z = 0 of the world. */
export function headSchema(lengths: Lengths) {
  return z
    .strictObject(fields(lengths))
    .superRefine(oneSource)
    .meta(SOURCE)
    .describe('One head; its face is z = 0, x runs along the crank, y is up.');
}

/** `heads`: several heads, each placed in the world. */
export function headsSchema(lengths: Lengths) {
  return z
    .array(
      z
        .strictObject({
          name: nameField('Name of the head', 'front head'),
          at: lengths.point3("Origin of the head's frame on its face, in the world [x, y, z]"),
          facing: directionField("The way the face looks: the head's +z, in the world"),
          clocking: angleField(
            "Turns the head's x and y about its z; at 0 its y is as near to up as can be",
            -360,
            360,
          ).prefault(DEFAULTS.heads.clocking),
          ...fields(lengths),
        })
        .superRefine(oneSource)
        .meta(SOURCE),
    )
    .min(1)
    .max(MOST_CYLINDERS)
    .describe('Several heads, each with its place.');
}

function portSchema(lengths: Lengths) {
  return z
    .strictObject({
      cylinder: countField('Cylinder the port belongs to', 1, MOST_CYLINDERS),
      at: lengths.point2('Centre of the port on the face [x, y]'),
      direction: directionField(
        'The way the gas leaves, in the frame of the head; straight out when left out',
      ).prefault([...DEFAULTS.port.direction]),
      shape: portShapeField(lengths),
      length_in_head: lengths
        .positive('Length of the port inside the head; used by tuning only', { max: 1000 })
        .optional(),
    })
    .superRefine((port, context) => {
      if (port.direction[2] > LEAST_LEAVING) return;
      const message =
        'the port must leave the face: its direction may lean up to 60 degrees from straight out, [0, 0, 1]';
      context.addIssue({ code: 'custom', path: ['direction'], message, input: port });
    });
}

function boltSchema(lengths: Lengths) {
  return z
    .strictObject({
      at: lengths.point2('Centre of the bolt on the face [x, y]'),
      thread: z.enum(BOLT_THREADS).describe('Thread; gives the clearance hole by flange.bolt_fit'),
      hole_diameter: lengths
        .positive('Hole in the flange instead of the clearance hole of the table', { max: 50 })
        .optional(),
      socket: lengths
        .positive('Outside diameter of the socket that turns it; by thread when left out: measure yours', { max: 100 })
        .optional(),
    })
    .superRefine((bolt, context) => {
      const least = threadDiameter(bolt.thread);
      const words = (mm: number) => lengthWords(mm, lengths.unit);
      const larger = (field: 'hole_diameter' | 'socket', what: string) => {
        const found = bolt[field];
        if (found === undefined || found > least) return;
        const message = `expected a ${what} larger than the thread ${bolt.thread} (${words(least)}), found ${words(found)}`;
        context.addIssue({ code: 'custom', path: [field], message, input: bolt });
      };
      larger('hole_diameter', 'hole');
      larger('socket', 'socket');
    });
}

function plugSchema(lengths: Lengths) {
  const { diameter, length } = DEFAULTS.plug;
  return z.strictObject({
    cylinder: countField('Cylinder of the plug', 1, MOST_CYLINDERS),
    at: lengths.point3("Seat of the plug, in the head's frame [x, y, z]"),
    direction: directionField('The way the socket comes off, in the frame of the head [x, y, z]'),
    diameter: lengths.positive('Diameter that socket and boot need', { max: 100 }).prefault(diameter),
    length: lengths.positive('How far from the seat the socket needs room', { max: 500 }).prefault(length),
  });
}

function bodySchema(lengths: Lengths) {
  return z
    .strictObject({
      from: lengths.point2('Lowest [x, y] of the metal, in the frame of the head'),
      to: lengths.point2('Highest [x, y] of the metal, in the frame of the head'),
      depth: lengths.positive('How far the metal reaches behind the face'),
    })
    .superRefine((body, context) => {
      if (body.from[0] !== body.to[0] && body.from[1] !== body.to[1]) return;
      const message = 'the body has no size: from and to must differ in x and in y';
      context.addIssue({ code: 'custom', path: ['to'], message, input: body });
    })
    .describe('The metal behind the face as a box; everything behind the face when left out.');
}
