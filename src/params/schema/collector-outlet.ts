import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField } from '../fields/number-field.js';

/** Least and largest half-angle of a cone or diffuser, degrees. */
const FLATTEST = 0.5;
const STEEPEST = 45;

type Outlet = Readonly<Record<string, unknown>>;

/** `outlet` of a collector: the pipe it ends in, and the cone or venturi on the way there. */
export function outletSchema(lengths: Lengths) {
  return z
    .strictObject({
      kind: z
        .enum(['cone', 'venturi'])
        .default(DEFAULTS.collector.outlet.kind)
        .describe('cone runs straight to the outlet; venturi draws in to a throat and widens from there'),
      od: lengths.positive('Outside diameter of the outlet', { max: 500 }),
      wall: lengths
        .positive(
          'Wall of the cone and the outlet; when left out, that of the tubes that join here, or of the secondary that leaves',
          { max: 20 },
        )
        .optional(),
      cone_length: lengths
        .positive('Length of the cone from the merge to the outlet, or to the throat of a venturi', { max: 2000 })
        .optional(),
      cone_half_angle: angleField(
        'Instead of cone_length: half-angle of the round cone of the same areas; the length follows',
        FLATTEST,
        STEEPEST,
      ).optional(),
      throat: lengths.positive('Bore of the throat of a venturi', { max: 500 }).optional(),
      throat_length: lengths.atLeastZero('Straight length of the throat; 0 when left out', { max: 2000 }).optional(),
      diffuser: diffuserSchema(lengths).optional(),
      tail: lengths
        .atLeastZero('Straight pipe after the cone or the diffuser', { max: 2000 })
        .prefault(DEFAULTS.collector.tail),
    })
    .superRefine((outlet, context) => {
      for (const [field, message] of faults(outlet)) {
        context.addIssue({ code: 'custom', path: [field], message, input: outlet });
      }
    })
    .meta({ oneOf: [{ required: ['cone_length'] }, { required: ['cone_half_angle'] }] })
    .describe('The pipe the collector ends in.');
}

function diffuserSchema(lengths: Lengths) {
  return z
    .strictObject({
      half_angle: angleField("Angle between the diffuser's wall and its axis", FLATTEST, STEEPEST).optional(),
      length: lengths.positive('Length of the diffuser', { max: 2000 }).optional(),
    })
    .superRefine((d, context) => {
      if ((d.half_angle === undefined) !== (d.length === undefined)) return;
      const message = 'expected one of half_angle and length';
      context.addIssue({ code: 'custom', message, input: d });
    })
    .meta({ oneOf: [{ required: ['half_angle'] }, { required: ['length'] }] })
    .describe('From the throat of a venturi to the outlet: by its half-angle or its length.');
}

/** What is wrong with an outlet in itself: field and sentence. */
function faults(outlet: Outlet & { readonly od: number; readonly wall?: number | undefined }): [string, string][] {
  const has = (field: string): boolean => outlet[field] !== undefined;
  const found: [string, string][] = [];
  if (outlet.wall !== undefined && outlet.wall >= outlet.od / 2) {
    found.push(['wall', 'expected a wall thinner than half the outlet']);
  }
  if (!has('cone_length') && !has('cone_half_angle')) {
    found.push(['cone_length', 'missing; give the length of the cone, or its cone_half_angle']);
  }
  if (has('cone_length') && has('cone_half_angle')) {
    found.push(['cone_half_angle', 'the cone has its length already: leave cone_length or cone_half_angle out']);
  }
  if (outlet.kind === 'venturi') {
    if (!has('throat')) found.push(['throat', 'missing; a venturi needs the bore of its throat']);
    return found;
  }
  for (const field of ['throat', 'throat_length', 'diffuser']) {
    if (has(field)) found.push([field, 'only a venturi has one: set kind to venturi, or leave it out']);
  }
  return found;
}
