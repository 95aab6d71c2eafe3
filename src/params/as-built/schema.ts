import * as z from 'zod';
import { either, expected } from '../faults/wording.js';
import { type Lengths, lengthsIn } from '../fields/length-field.js';
import { angleField, countField, numberField } from '../fields/number-field.js';
import { nameField } from '../fields/text-field.js';
import { MOST_CYLINDERS, MOST_MEASURED_PIECES, MOST_MEASURED_TUBES, MOST_ROUTE_POINTS } from '../limits.js';
import type { LengthUnit } from '../units.js';

/** The format of as-built files this program reads: the number after `evenrun_measured:`. */
export const MEASURED_FORMAT = 1;

/** Most a tube can hold, ml. */
const MOST_WATER = 100_000;

/** Most a length may be said to be off by, mm. */
const MOST_UNCERTAINTY = 50;

/** The schema of an as-built file whose plain numbers are in a unit. What it gives is in mm and rad. */
export function asBuiltSchema(unit: LengthUnit) {
  const lengths = lengthsIn(unit);
  return z
    .strictObject({
      evenrun_measured: z
        .literal(MEASURED_FORMAT, {
          error: (issue) => expected(`${MEASURED_FORMAT}, the format this program reads`, issue.input),
        })
        .describe('Version of the format'),
      units: z.enum(['mm', 'in']).describe('Unit of every plain number that is a length'),
      plan: nameField('Name of the plan the tubes were built to', 'street four').optional(),
      tubes: z.array(tubeSchema(lengths)).min(1).max(MOST_MEASURED_TUBES).describe('The tubes that were measured'),
    })
    .describe('Measurements of built tubes.');
}

const METHODS = ['length', 'pieces', 'string', 'water', 'points'] as const;

function tubeSchema(lengths: Lengths) {
  return z
    .strictObject({
      cylinder: countField('Cylinder of a primary', 1, MOST_CYLINDERS).optional(),
      from: nameField('Collector a secondary comes from', 'front').optional(),
      length: lengths.positive('Centreline length by tape or string').optional(),
      pieces: z
        .array(pieceSchema(lengths))
        .min(1)
        .max(MOST_MEASURED_PIECES)
        .optional()
        .describe('Pieces as they were cut; those left out count as planned'),
      string: z
        .strictObject({
          inside: lengths.positive('String along the inside of the bends'),
          outside: lengths.positive('String along the outside of the bends'),
        })
        .optional()
        .describe('Two strings on opposite sides of the tube, held down all along and wound round it nowhere'),
      water: z
        .strictObject({
          volume: numberField('Water that fills the tube, millilitres', 1, MOST_WATER),
          from: z
            .enum(['port', 'flange'])
            .describe('Filled with the flange on, up to the head face (port), or the tube alone (flange)'),
        })
        .optional()
        .describe('Water that fills the tube up to the collector inlet plane'),
      points: z
        .array(lengths.point3('Point [x, y, z]'))
        .min(2)
        .max(2 * MOST_ROUTE_POINTS + 2)
        .optional()
        .describe('Measured points of the centreline, from where the tube starts; in any frame'),
      by: z
        .enum(['intersection', 'tangent'])
        .optional()
        .describe(
          'intersection: both ends and where the straights would meet, as in bend-table.csv; tangent: both ends of every straight',
        ),
      clr: z
        .array(lengths.positive('Centreline radius', { max: 1000 }))
        .max(MOST_ROUTE_POINTS)
        .optional()
        .describe('Measured centreline radius of every bend; those of the route when left out. Only by: intersection'),
      begins: z
        .enum(['port', 'flange'])
        .optional()
        .describe('Where length, string or points begin: at the head face (port) or at the outer face of the flange'),
      uncertainty: lengths
        .atLeastZero('What the length may be off by, plus and minus; the usual of its kind when left out', {
          max: MOST_UNCERTAINTY,
        })
        .optional(),
    })
    .superRefine((tube, context) => {
      const fault = (path: string[], message: string): void =>
        context.addIssue({ code: 'custom', path, message, input: tube });
      if ((tube.cylinder === undefined) === (tube.from === undefined)) {
        fault([], 'expected either cylinder, for a primary, or from, for a secondary');
      }
      const given = METHODS.filter((m) => tube[m] !== undefined);
      if (given.length !== 1) {
        const found = given.length === 0 ? 'none' : either(given, 'and');
        fault([], `expected just one of ${either(METHODS)}, found ${found}`);
      }
      if (tube.points && !tube.by) fault(['by'], 'missing; expected "intersection" or "tangent"');
      if (!tube.points && tube.by) fault(['by'], 'only goes with points');
      if (tube.clr && tube.by !== 'intersection') fault(['clr'], 'only goes with points by: intersection');
      if (tube.begins && (tube.pieces || tube.water)) {
        fault(['begins'], 'only goes with length, string and points; pieces and water say where they begin themselves');
      }
      if (tube.points && tube.by === 'tangent' && tube.points.length % 2 === 1) {
        fault(['points'], `expected two points for every straight, found ${tube.points.length} points`);
      }
    })
    .describe('One tube and one kind of measurement.');
}

function pieceSchema(lengths: Lengths) {
  return z
    .strictObject({
      piece: nameField('Name of the piece in the cut list', '2C'),
      length: lengths.positive('Length of a straight piece').optional(),
      bend: angleField('Angle of a bend', 0, 360).optional(),
      before: lengths.atLeastZero('Straight on a bend before it').optional(),
      after: lengths.atLeastZero('Straight on a bend after it').optional(),
    })
    .describe('A piece as it was cut: length of a straight; angle and straights of a bend.');
}

/** An as-built file after the schema. */
export type AsBuiltFile = z.output<ReturnType<typeof asBuiltSchema>>;
