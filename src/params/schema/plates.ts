import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { expected } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField, countField } from '../fields/number-field.js';
import { nameField } from '../fields/text-field.js';
import { MOST_COPIES, MOST_PLATE_BOLTS, MOST_PLATES } from '../limits.js';
import { BOLT_THREADS } from '../tables/bolt-holes.js';
import { LARGEST_EDGE, LARGEST_PLATE, MEASURE, throatSchema } from './plate-throat.js';

/** `plates`: the flanges beside those of the heads. */
export function platesSchema(lengths: Lengths) {
  return z
    .array(
      z.discriminatedUnion('kind', [
        rectangleSchema(lengths),
        triangleSchema(lengths),
        ovalSchema(lengths),
        roundSchema(lengths),
        vbandSchema(lengths),
        slipJointSchema(lengths),
      ]),
    )
    .max(MOST_PLATES)
    .superRefine((plates, context) => {
      plates.forEach((p, i) => {
        if (plates.findIndex((other) => other.name === p.name) === i) return;
        const message = `the name ${JSON.stringify(p.name)} is taken by an earlier plate; each needs its own`;
        context.addIssue({ code: 'custom', path: [i, 'name'], message, input: plates });
      });
    })
    .default([])
    .describe('Plates beside the head flanges: at collector outlets, turbine inlets and joints.');
}

const common = () => ({
  name: nameField('Name of the plate, marked on it and used for its files', 'turbine inlet'),
  for: z
    .union([nameField('Collector', 'collector'), z.array(nameField('Collector', 'front')).min(1).max(2)], {
      error: (issue) => expected('the name of a collector, or a list of two for a divided throat', issue.input),
    })
    .optional()
    .describe('Collector whose outlet ends in it; for a divided throat a list of two, left opening first'),
  count: countField('Pieces to make', 1, MOST_COPIES).default(DEFAULTS.plates.count),
  material: nameField("Material; the flange's when left out", 'mild steel').optional(),
});

const flat = (lengths: Lengths) => ({
  ...common(),
  thickness: lengths.positive("Plate thickness; the flange's when left out", { max: 50 }).optional(),
});

const bolted = (lengths: Lengths) => {
  const { thread, edge, throat_edge, gasket } = DEFAULTS.plates;
  return {
    ...flat(lengths),
    thread: z.enum(BOLT_THREADS).default(thread).describe(`Thread of the bolts. ${MEASURE}`),
    bolt_fit: z
      .enum(['fine', 'medium', 'coarse'])
      .optional()
      .describe("Clearance of bolt holes: ISO 273 series; the flange's when left out"),
    hole_diameter: lengths
      .positive('Instead of thread and fit: the hole itself, such as the drill for a thread cut in the plate', {
        max: 60,
      })
      .optional(),
    edge: lengths
      .positive(`Least metal from a bolt hole to the outside. ${MEASURE}`, { max: LARGEST_EDGE })
      .prefault(edge),
    throat_edge: lengths
      .positive(`Least metal from an opening to the outside. ${MEASURE}`, { max: LARGEST_EDGE })
      .prefault(throat_edge),
    fillet: lengths
      .positive('Radius of a waist between the bolts; straight from bolt to bolt when left out', { max: 500 })
      .optional(),
    gasket: z.boolean().default(gasket).describe('false leaves this plate out where the plan asks for gaskets'),
  };
};

const pitch = (lengths: Lengths, about: string) =>
  lengths.positive(`${about}, from centre to centre, measured on the part`, { max: LARGEST_PLATE });

const bore = (lengths: Lengths) => ({
  bore: lengths
    .positive('Diameter of the opening; when left out the outlet of the collector it is for, with its gap', {
      max: LARGEST_PLATE,
    })
    .optional(),
  fit: lengths
    .atLeastZero(`Gap per side between an outlet and the opening it slips into. ${MEASURE}`, { max: 5 })
    .prefault(DEFAULTS.plates.fit),
});

function rectangleSchema(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('rectangle_four_bolt'),
      ...bolted(lengths),
      bolt_x: pitch(lengths, 'Distance of the bolts across'),
      bolt_y: pitch(lengths, 'Distance of the bolts up'),
      throat: throatSchema(lengths)
        .optional()
        .describe('The opening; when left out round, as the outlet of the collector it is for'),
      fit: bore(lengths).fit,
    })
    .describe('Four bolts at the corners of a rectangle: divided and open turbine inlets.');
}

function triangleSchema(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('triangle_three_bolt'),
      ...bolted(lengths),
      bolt_circle: pitch(lengths, 'Diameter of the circle through the bolts'),
      clocking: clocking('one bolt straight up'),
      ...bore(lengths),
    })
    .describe('Three bolts evenly round the opening.');
}

function ovalSchema(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('oval_two_bolt'),
      ...bolted(lengths),
      bolt_spacing: pitch(lengths, 'Distance of the two bolts'),
      clocking: clocking('bolts level'),
      ...bore(lengths),
    })
    .describe('Two bolts either side of the opening.');
}

function roundSchema(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('round'),
      ...bolted(lengths),
      bolts: countField('Bolts, evenly round', 2, MOST_PLATE_BOLTS),
      bolt_circle: pitch(lengths, 'Diameter of the circle through the bolts'),
      od: lengths
        .positive('Outside diameter; bolt circle, hole and edges decide when left out', { max: LARGEST_PLATE })
        .optional(),
      clocking: clocking('one bolt straight up'),
      ...bore(lengths),
    })
    .describe('A round plate with bolts evenly round.');
}

const clocking = (zero: string) =>
  angleField(`Turns the bolts counter-clockwise from ${zero}`, -180, 180).prefault(DEFAULTS.plates.clocking);

function vbandSchema(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('vband_bore'),
      ...flat(lengths),
      tube_od: lengths
        .positive('Tube the ring is welded to; the outlet of the collector it is for when left out', { max: 500 })
        .optional(),
      fit: bore(lengths).fit,
      od: lengths
        .positive(`Outside diameter of the ring; a land of 10 mm round the bore when left out. ${MEASURE}`, {
          max: LARGEST_PLATE,
        })
        .optional(),
    })
    .describe('The bored blank of a ring that is welded to a tube and held by a V-band clamp.');
}

function slipJointSchema(lengths: Lengths) {
  const { fit, slip_joint } = DEFAULTS.plates;
  return z
    .strictObject({
      kind: z.literal('slip_joint'),
      ...common(),
      tube_od: lengths
        .positive('Tube that slips in; the outlet of the collector it is for when left out', { max: 500 })
        .optional(),
      wall: lengths.positive('Wall of the sleeve; that of the outlet when left out', { max: 20 }).optional(),
      overlap: lengths.positive(`Length the tube slips in. ${MEASURE}`, { max: 500 }).prefault(slip_joint.overlap),
      fit: lengths.positive(`Gap per side. ${MEASURE}`, { max: 5 }).prefault(fit),
    })
    .describe('A sleeve that slips over the end of a tube; told in numbers, with the flat piece to roll.');
}
