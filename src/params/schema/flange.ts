import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from './length-field.js';
import { nameField } from './text-field.js';

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
        .atLeastZero('The opening is the port grown by this all round', { max: 20 })
        .prefault(DEFAULTS.flange.enlarge),
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
