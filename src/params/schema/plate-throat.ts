import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { lengthWords } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';

/** Largest size of a plate and of its opening, mm. */
export const LARGEST_PLATE = 1000;

/** Largest margin of metal in a plate, mm. */
export const LARGEST_EDGE = 100;

/** Said of every figure that stands in for one that was not measured. */
export const MEASURE = 'Common practice; measure the part';

/** The opening of a plate: one rectangle, two side by side, or round. */
export const throatSchema = (lengths: Lengths) =>
  z.discriminatedUnion('kind', [openThroat(lengths), dividedThroat(lengths), roundThroat(lengths)]);

const radius = (lengths: Lengths) =>
  lengths.atLeastZero(`Radius of its corners. ${MEASURE}`, { max: 200 }).prefault(DEFAULTS.plates.corner_radius);

function openThroat(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('open'),
      width: pitchless(lengths, 'Width'),
      height: pitchless(lengths, 'Height'),
      corner_radius: radius(lengths),
    })
    .superRefine((t, context) => cornersFit(lengths, t.width, t.height, t.corner_radius, context))
    .describe('One rectangular opening.');
}

function dividedThroat(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('divided'),
      width: pitchless(lengths, 'Width over both openings'),
      height: pitchless(lengths, 'Height'),
      web: lengths
        .positive(`Metal between the two openings. ${MEASURE}`, { max: LARGEST_EDGE })
        .prefault(DEFAULTS.plates.web),
      corner_radius: radius(lengths),
    })
    .superRefine((t, context) => {
      if (t.web >= t.width) {
        const message = `expected a web thinner than the width (${lengthWords(t.width, lengths.unit)}), found ${lengthWords(t.web, lengths.unit)}`;
        context.addIssue({ code: 'custom', path: ['web'], message, input: t });
      } else cornersFit(lengths, (t.width - t.web) / 2, t.height, t.corner_radius, context);
    })
    .describe('Two openings side by side.');
}

function roundThroat(lengths: Lengths) {
  return z
    .strictObject({ kind: z.literal('round'), diameter: pitchless(lengths, 'Diameter') })
    .describe('One round opening.');
}

const pitchless = (lengths: Lengths, about: string) =>
  lengths.positive(`${about}, measured on the part`, { max: LARGEST_PLATE });

interface Issues {
  readonly addIssue: (issue: { code: 'custom'; path: string[]; message: string; input: unknown }) => void;
}

function cornersFit({ unit }: Lengths, width: number, height: number, r: number, context: Issues): void {
  const most = Math.min(width, height) / 2;
  if (r <= most) return;
  const message = `expected a corner radius up to half an opening (${lengthWords(most, unit)}), found ${lengthWords(r, unit)}`;
  context.addIssue({ code: 'custom', path: ['corner_radius'], message, input: r });
}
