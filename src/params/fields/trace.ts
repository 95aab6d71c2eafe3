import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { MOST_CYLINDERS } from '../limits.js';
import { BOLT_THREADS } from '../tables/bolt-holes.js';
import { directionField } from './direction-field.js';
import type { Lengths } from './length-field.js';
import { countField, degreesField } from './number-field.js';
import { fileField, nameField } from './text-field.js';

/** A fit must be larger, mm: less is below what a cutter or a scan can tell. */
const LEAST_FIT = 0.001;

const unitField = () =>
  z
    .enum(['mm', 'in'])
    .optional()
    .describe('Unit of the numbers in the file: needed for a CSV, and for a DXF that does not say');

const layerField = (what: string) => nameField(`Layer of the DXF ${what}`, 'CUT').optional();

const HEAL = 'Gaps between loose ends up to this are closed and reported';
const FIT = 'Dense points are fitted by lines and arcs that pass them this near';

const healField = (lengths: Lengths, about: string) => lengths.atLeastZero(about, { max: 1 });
const fitField = (lengths: Lengths, about: string) => lengths.positive(about, { over: LEAST_FIT, max: 0.5 });

const mirrorField = () =>
  z.boolean().describe('true for a trace seen from the head: x counts backwards before it is turned');

/** The fields of a port's shape that say where in a file it is. */
export const tracedFileFields = (lengths: Lengths) => ({
  file: fileField(
    'Instead of points: a DXF, or a CSV of points x, y in order round the port; beside the plan or by its path from there',
    'gasket.dxf',
  ).optional(),
  unit: unitField(),
  layer: layerField('the contour is on; all that are switched on when left out'),
  contour: z
    .union([countField('Number of the contour in the file', 1, 1000), lengths.point2('A point in it, in the file')])
    .optional()
    .describe('Which closed contour: its number in the file, or a point [x, y] of the file in or near it'),
  at: lengths
    .point2("Point [x, y] of the file that lies at the port's centre; the centre of its area when left out")
    .optional(),
  rotation: degreesField(
    'Turns a port from a file about its centre, counter-clockwise seen from outside the head',
    -360,
    360,
  ).optional(),
  mirror: mirrorField().optional(),
  heal: healField(lengths, `${HEAL}; ${DEFAULTS.trace.heal} when left out`).optional(),
  fit: fitField(lengths, `${FIT}; ${DEFAULTS.trace.fit} when left out`).optional(),
});

/** `trace` of a head: ports and bolt holes from one drawing. */
export function headTraceSchema(lengths: Lengths) {
  return z
    .strictObject({
      file: fileField('DXF of the whole face or gasket, beside the plan or by its path from there', 'gasket.dxf'),
      unit: unitField(),
      origin: lengths.point2("Point [x, y] of the file that becomes the head's origin"),
      rotation: degreesField(
        'Turns the drawing about that point, counter-clockwise seen from outside the head',
        -360,
        360,
      ).default(DEFAULTS.trace.rotation),
      mirror: mirrorField().default(DEFAULTS.trace.mirror),
      ports_layer: layerField('the ports are on; all that are switched on when left out'),
      bolts_layer: layerField('the bolt holes are on; all that are switched on when left out'),
      bolt_max_diameter: lengths
        .positive('Round holes up to this are bolt holes, larger ones ports', { max: 50 })
        .prefault(DEFAULTS.trace.bolt_max_diameter),
      thread: z
        .enum(BOLT_THREADS)
        .optional()
        .describe('Thread of all bolts; by the nearest clearance hole of the table when left out'),
      cylinders: z
        .array(countField('Cylinder', 1, MOST_CYLINDERS))
        .min(1)
        .max(MOST_CYLINDERS)
        .optional()
        .describe('Cylinders of the ports from left to right along x; 1, 2, ... when left out'),
      direction: directionField(
        'The way the gas leaves all ports, in the frame of the head; straight out when left out',
      ).prefault([...DEFAULTS.port.direction]),
      length_in_head: lengths
        .atLeastZero('Centreline of every port from the valve to the head face; used in tuning only', { max: 1000 })
        .optional(),
      heal: healField(lengths, HEAL).prefault(DEFAULTS.trace.heal),
      fit: fitField(lengths, FIT).prefault(DEFAULTS.trace.fit),
    })
    .describe('Instead of ports: one DXF whose closed contours are ports and whose small round holes are bolt holes.');
}
