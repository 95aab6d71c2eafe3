import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { lengthWords } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField, countField } from '../fields/number-field.js';
import { nameField } from '../fields/text-field.js';
import { MOST_COPIES, MOST_FABRICATED, MOST_MITRES } from '../limits.js';

const LARGEST_PIECE = 2000;

/** A transition this much flatter than it is wide is a plate with a hole: it is not rolled from one flat. */
const LEAST_HEIGHT = 0.1;

/** `patterns`: flat developments at 1:1. */
export function patternsSchema(lengths: Lengths) {
  const { wrap, tab, paper } = DEFAULTS.patterns;
  return z
    .strictObject({
      wrap: z.enum(['outside', 'inside']).default(wrap).describe('Side of the tube the paper is laid on'),
      tab: lengths
        .atLeastZero('Strip of paper beyond once round, glued under the other end', { max: 100 })
        .prefault(tab),
      paper: lengths.atLeastZero('Thickness of the paper: it makes the way round longer', { max: 3 }).prefault(paper),
      extra: z
        .array(
          z.discriminatedUnion('kind', [
            frustumSchema(lengths),
            eccentricSchema(lengths),
            squareToRoundSchema(lengths),
            mitreSchema(lengths),
            pieCutSchema(lengths),
            saddleSchema(lengths),
          ]),
        )
        .max(MOST_FABRICATED)
        .superRefine((pieces, context) => {
          pieces.forEach((p, i) => {
            if (pieces.findIndex((other) => other.name === p.name) === i) return;
            const message = `the name ${JSON.stringify(p.name)} is taken by an earlier piece; each needs its own`;
            context.addIssue({ code: 'custom', path: [i, 'name'], message, input: pieces });
          });
        })
        .default([])
        .describe("Pieces to be made beside the header's own, each with its pattern"),
    })
    .prefault({})
    .describe('Flat developments at 1:1: paper wrapped round tubes and pieces cut from sheet.');
}

const common = () => ({
  name: nameField('Name of the piece, written on its pattern and used for its files', 'air box cone'),
  count: countField('Pieces to make', 1, MOST_COPIES).default(DEFAULTS.patterns.count),
});

const size = (lengths: Lengths, about: string) => lengths.positive(about, { max: LARGEST_PIECE });

const sheet = (lengths: Lengths) => ({
  ...common(),
  height: size(lengths, 'Distance between the two end planes'),
  measured: z
    .enum(['outside', 'inside', 'middle'])
    .default(DEFAULTS.patterns.measured)
    .describe('Face of the sheet the sizes are of; the pattern is developed at the middle of its thickness'),
  thickness: lengths.positive("Thickness of the sheet; the tube's wall when left out", { max: 20 }).optional(),
  material: nameField("Material of the sheet; the tube's when left out", 'mild steel').optional(),
});

const tube = (lengths: Lengths) => ({
  ...common(),
  od: size(lengths, "Outside diameter of the tube; the primaries' when left out").optional(),
  wall: lengths.positive("Wall of the tube; the primaries' when left out", { max: 20 }).optional(),
});

const ends = (lengths: Lengths) => ({
  from: size(lengths, 'Diameter of one end'),
  to: size(lengths, 'Diameter of the other end'),
});

type Issues = Parameters<Parameters<z.ZodObject['superRefine']>[0]>[1];

/** Refuses a piece that is far flatter than it is wide. */
function tallEnough({ unit }: Lengths, height: number, widest: number, context: Issues): void {
  const least = LEAST_HEIGHT * widest;
  if (height >= least) return;
  const message = `expected a height of a tenth of the widest size or more (${lengthWords(least, unit)}), found ${lengthWords(height, unit)}`;
  context.addIssue({ code: 'custom', path: ['height'], message, input: height });
}

function frustumSchema(lengths: Lengths) {
  return z
    .strictObject({ kind: z.literal('frustum'), ...sheet(lengths), ...ends(lengths) })
    .superRefine((p, context) => tallEnough(lengths, p.height, Math.max(p.from, p.to), context))
    .describe('A right cone between two parallel circles on one axis.');
}

function eccentricSchema(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('eccentric'),
      ...sheet(lengths),
      ...ends(lengths),
      offset: size(lengths, 'Distance of the two axes'),
    })
    .superRefine((p, context) => tallEnough(lengths, p.height, Math.max(p.from, p.to) + 2 * p.offset, context))
    .describe('A cone between two parallel circles whose centres stand apart.');
}

function squareToRoundSchema(lengths: Lengths) {
  const { offset } = DEFAULTS.patterns;
  return z
    .strictObject({
      kind: z.literal('square_to_round'),
      ...sheet(lengths),
      width: size(lengths, 'Width of the rectangle'),
      depth: size(lengths, 'Depth of the rectangle'),
      corner_radius: lengths.atLeastZero('Radius of its corners', { max: LARGEST_PIECE / 2 }).prefault('0 mm'),
      diameter: size(lengths, 'Diameter of the round end'),
      offset: lengths
        .point2("Centre of the round end from the rectangle's [along the width, along the depth]")
        .prefault([offset, offset]),
    })
    .superRefine((p, context) => {
      const most = Math.min(p.width, p.depth) / 2;
      if (p.corner_radius > most) {
        const message = `expected corners up to half the rectangle (${lengthWords(most, lengths.unit)}), found ${lengthWords(p.corner_radius, lengths.unit)}`;
        context.addIssue({ code: 'custom', path: ['corner_radius'], message, input: p });
      }
      tallEnough(lengths, p.height, Math.max(p.width, p.depth, p.diameter) + 2 * Math.hypot(...p.offset), context);
    })
    .describe('From a rectangle to a circle in a parallel plane.');
}

function mitreSchema(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('mitre'),
      ...tube(lengths),
      angle: angleField('Angle of the cut from square across: half of what the joint turns', 0.1, 75),
    })
    .describe('The end of a tube cut by one plane.');
}

function pieCutSchema(lengths: Lengths) {
  return z
    .strictObject({
      kind: z.literal('pie_cut'),
      ...tube(lengths),
      clr: size(lengths, 'Centreline radius of the bend'),
      turn: angleField('Angle the bend turns', 1, 180),
      joints: countField('Welded joints', 1, MOST_MITRES),
    })
    .superRefine(({ turn, joints }, context) => {
      const each = (turn * 180) / Math.PI / joints;
      if (each <= 120) return;
      const message = `expected joints that turn 120 degrees at most, found ${each} degrees each: use more joints`;
      context.addIssue({ code: 'custom', path: ['joints'], message, input: joints });
    })
    .describe('A bend made of straight segments with mitred ends.');
}

function saddleSchema(lengths: Lengths) {
  const { angle, offset } = DEFAULTS.patterns;
  return z
    .strictObject({
      kind: z.literal('saddle'),
      ...tube(lengths),
      host_od: size(lengths, 'Outside diameter of the tube it stands on'),
      host_wall: lengths
        .positive("Wall of the tube it stands on; the primaries' when left out", { max: 20 })
        .optional(),
      angle: angleField('Angle between the axes; 90 is square', 20, 90).prefault(angle),
      offset: lengths
        .atLeastZero('Distance at which the axes pass each other', { max: LARGEST_PIECE })
        .prefault(offset),
    })
    .describe('The end of a branch that stands on another tube, and the opening in that tube.');
}
