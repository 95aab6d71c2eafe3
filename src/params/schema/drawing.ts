import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { lengthWords } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';
import { countField } from '../fields/number-field.js';
import { MOST_COPIES } from '../limits.js';

const LARGEST_SHEET = 10_000;

/** `drawing`: how flat parts are drawn for the cutter and printed. */
export function drawingSchema(lengths: Lengths) {
  const { dxf_units, dxf_version, curves, engrave } = DEFAULTS.drawing;
  return z
    .strictObject({
      dxf_units: z.enum(['mm', 'in']).default(dxf_units).describe('Unit of the numbers in DXF files'),
      dxf_version: z
        .enum(['r2007', 'r12'])
        .default(dxf_version)
        .describe('Version of DXF files; r12 is what the oldest cutters read'),
      curves: z
        .enum(['polylines', 'lines_and_arcs'])
        .default(curves)
        .describe(
          'Contours as closed polylines with arcs in them, or as loose lines and arcs in the order of the contour, for readers that get arcs in polylines wrong',
        ),
      paper: z
        .enum(['a4', 'letter'])
        .optional()
        .describe('Paper of the prints at 1:1; letter for plans in inches and a4 for others when left out'),
      engrave: z
        .boolean()
        .default(engrave)
        .describe(
          'true marks cylinder numbers, the way up and the name on the part, as single strokes on a layer of their own',
        ),
      sheet: sheetSchema(lengths),
    })
    .prefault({})
    .describe('How flat parts are drawn for the cutter and printed.');
}

function sheetSchema(lengths: Lengths) {
  const { gap, margin, count } = DEFAULTS.drawing.sheet;
  const side = (about: string) => lengths.positive(about, { max: LARGEST_SHEET });
  return z
    .strictObject({
      size: z.tuple([side('x'), side('y')]).describe('Size of the sheet: x, y'),
      gap: lengths.positive('Least gap between parts. Common practice; ask your cutter', { max: 200 }).prefault(gap),
      margin: lengths
        .atLeastZero('Least gap to the edge of the sheet. Common practice; ask your cutter', { max: 500 })
        .prefault(margin),
      count: countField('Sets of all parts to lay out', 1, MOST_COPIES).default(count),
    })
    .superRefine(({ size, margin: edge }, context) => {
      if (2 * edge < Math.min(...size)) return;
      const message = `margins of ${lengthWords(edge, lengths.unit)} leave nothing of the sheet`;
      context.addIssue({ code: 'custom', path: ['margin'], message, input: size });
    })
    .optional()
    .describe(
      'Lays flanges, plates and gaskets out on sheets, one drawing a sheet; left out, each part has only its own drawing.',
    );
}
