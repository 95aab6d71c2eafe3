import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { numberField } from '../fields/number-field.js';
import { nameField } from '../fields/text-field.js';
import { growthSchema } from './flange-growth.js';
import { dowelsSchema, notchesSchema } from './flange-marks.js';
import { LARGEST_ENLARGE, openingSchema } from './flange-opening.js';
import { styleSchema } from './flange-style.js';

const LARGEST_EDGE = 100;

/** `flange`: the plate bolted to the head face. */
export function flangeSchema(lengths: Lengths) {
  const edge = (about: string) => lengths.positive(about, { max: LARGEST_EDGE });
  return z
    .strictObject({
      thickness: lengths.positive('Plate thickness', { max: 50 }),
      material: nameField('Material of the plate, as the cut list prints it', 'mild steel'),
      edge_width: edge('Least metal from an opening or bolt hole to the outside').prefault(DEFAULTS.flange.edge_width),
      port_edge: edge('Least metal from a port opening to the outside; edge_width when left out').optional(),
      bolt_edge: edge('Least metal from a bolt hole to the outside; edge_width when left out').optional(),
      web: edge('Least metal between two openings or holes').prefault(DEFAULTS.flange.web),
      fillet: lengths
        .atLeastZero('Fillet radius at inner corners of the outline', { max: LARGEST_EDGE })
        .prefault(DEFAULTS.flange.fillet),
      enlarge: lengths
        .atLeastZero('The opening is the port grown by this all round', { max: LARGEST_ENLARGE })
        .prefault(DEFAULTS.flange.enlarge),
      opening: openingSchema(lengths),
      style: styleSchema(lengths),
      dowels: dowelsSchema(lengths),
      notches: notchesSchema(lengths),
      growth: growthSchema().optional(),
      weld_leg: edge('Leg of the fillet weld between tube and flange; the wall of the tube when left out').optional(),
      torch_gap: lengths
        .atLeastZero('Least gap between neighbouring tubes at the flange that a torch reaches into', { max: 200 })
        .prefault(DEFAULTS.flange.torch_gap),
      least_cut_hole: numberField(
        'Holes below this many plate thicknesses are centre-marked and drilled',
        0,
        5,
      ).default(DEFAULTS.flange.least_cut_hole),
      cut_class: z
        .union([z.literal(1), z.literal(2)])
        .default(DEFAULTS.flange.cut_class)
        .describe('Tolerance class of the cut, ISO 9013: 1 is typical of laser, 2 of plasma'),
      bolt_fit: z
        .enum(['fine', 'medium', 'coarse'])
        .default(DEFAULTS.flange.bolt_fit)
        .describe('Clearance of bolt holes: ISO 273 series; close, normal, loose for inch threads'),
      kerf: z
        .strictObject({
          width: lengths.atLeastZero('Width of the cut', { max: 10 }).prefault(DEFAULTS.flange.kerf.width),
          compensate: z
            .boolean()
            .default(DEFAULTS.flange.kerf.compensate)
            .describe('true moves the outlines by half the kerf; false leaves that to the cutter'),
        })
        .prefault({})
        .describe('The cut of the machine that makes the flange.'),
    })
    .describe('The plate bolted to the head face.');
}
