import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { expected, lengthWords } from '../faults/wording.js';
import { areaField } from '../fields/area-field.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField, countField, numberField } from '../fields/number-field.js';
import { nameField } from '../fields/text-field.js';
import { MOST_CYLINDERS, MOST_EXISTING_PARTS } from '../limits.js';

/** `existing`: the manifold the builder has, to be compared with the header. */
export function existingSchema(lengths: Lengths) {
  const { name, material, wall, roughness, double_wall } = DEFAULTS.existing;
  return z
    .strictObject({
      name: nameField('What reports call it', 'cast manifold').default(name),
      material: nameField('Its material, for its mass', 'cast iron').default(material),
      wall: lengths.positive('Mean thickness of its wall', { max: 30 }).prefault(wall),
      roughness: lengths.atLeastZero('Roughness inside', { max: 3 }).prefault(roughness),
      double_wall: z.boolean().default(double_wall).describe('true where a second wall with a gap holds the heat in'),
      heat_share: numberField('Heat a double wall lets through, as part of a bare wall', 0.05, 1).optional(),
      runners: z
        .array(runnerSchema(lengths))
        .min(1)
        .max(MOST_CYLINDERS)
        .describe('One for every cylinder, from the head face to where it joins others'),
      collectors: z
        .array(existingCollectorSchema(lengths))
        .min(1)
        .max(MOST_CYLINDERS)
        .describe('Places where runners join, in the way of the gas, each with the pipe that leaves it'),
    })
    .superRefine((existing, context) => {
      if (existing.heat_share === undefined || existing.double_wall) return;
      const message = 'only a double wall has one: set double_wall to true, or leave it out';
      context.addIssue({ code: 'custom', path: ['heat_share'], message, input: existing });
    })
    .describe('The manifold the engine has now, measured along its gas ways: compared with the header.');
}

const into = () => nameField('Collector it joins', 'log');

function runnerSchema(lengths: Lengths) {
  return z
    .strictObject({
      cylinder: countField('Cylinder', 1, MOST_CYLINDERS),
      into: into().optional().describe('Name of the collector it joins; the first when left out'),
      ...wayFields(lengths),
    })
    .superRefine((way, context) => wayFaults(way, lengths, context))
    .describe('The way of the gas from one port.');
}

function existingCollectorSchema(lengths: Lengths) {
  return z
    .strictObject({
      name: nameField('Name of the collector', 'log'),
      into: into().optional().describe('Name of the collector its pipe joins; its end is the outlet when left out'),
      volume: numberField(
        'Volume where the ways meet, cm3; a ball of its widest way when left out',
        1,
        20_000,
      ).optional(),
      ...wayFields(lengths),
    })
    .superRefine((way, context) => wayFaults(way, lengths, context))
    .describe('A place where ways join, and the way that leaves it.');
}

const wayFields = (lengths: Lengths) => ({
  sections: z
    .array(sectionSchema(lengths))
    .min(2)
    .max(MOST_EXISTING_PARTS)
    .describe('Sections along the gas, the first at 0, the last where it ends; two at one place are a step'),
  bends: z
    .array(
      z.strictObject({
        at: lengths.atLeastZero('Running length at which it begins'),
        angle: angleField('How far it turns', 1, 180),
        inside_radius: lengths.atLeastZero('Radius of the inside of the turn', { max: 1000 }),
      }),
    )
    .max(MOST_EXISTING_PARTS)
    .default([])
    .describe('Turns along the gas'),
});

function sectionSchema(lengths: Lengths) {
  return z
    .strictObject({
      at: lengths.atLeastZero('Running length'),
      diameter: lengths.positive('Inside diameter where it is round', { max: 300 }).optional(),
      width: lengths.positive('Inside width where it is not', { max: 300 }).optional(),
      height: lengths.positive('Inside height where it is not', { max: 300 }).optional(),
      corners: z
        .enum(['round', 'square'])
        .optional()
        .describe('Of width and height: round ends like an oval port, or square corners; round when left out'),
      area: areaField(lengths, 'Instead: its area').optional(),
    })
    .superRefine((s, context) => {
      const box = s.width !== undefined || s.height !== undefined;
      const ways = [s.diameter !== undefined, box, s.area !== undefined].filter(Boolean).length;
      const fault = (path: string[], message: string) => context.addIssue({ code: 'custom', path, message, input: s });
      if (ways !== 1) fault([], 'expected one of diameter, area, or width and height');
      else if (box && (s.width === undefined || s.height === undefined)) fault([], 'expected both width and height');
      else if (!box && s.corners !== undefined) fault(['corners'], 'only width and height have corners; leave it out');
    })
    .transform((s) => ({ at: s.at, area: sectionArea(s) }))
    .describe('The gas section at one place.');
}

interface SectionSizes {
  readonly diameter?: number | undefined;
  readonly width?: number | undefined;
  readonly height?: number | undefined;
  readonly corners?: 'round' | 'square' | undefined;
  readonly area?: number | undefined;
}

/** mm2. An oval is a rectangle with half circles at the ends of its longer way. */
function sectionArea({ diameter, width, height, corners, area }: SectionSizes): number {
  if (area !== undefined) return area;
  if (diameter !== undefined) return (Math.PI / 4) * diameter ** 2;
  if (width === undefined || height === undefined) return 0;
  const shorter = Math.min(width, height);
  return width * height - (corners === 'square' ? 0 : (1 - Math.PI / 4) * shorter ** 2);
}

interface Way {
  readonly sections: readonly { readonly at: number; readonly area: number }[];
  readonly bends: readonly { readonly at: number; readonly angle: number; readonly inside_radius: number }[];
}

interface Issues {
  readonly addIssue: (issue: { code: 'custom'; path: (string | number)[]; message: string; input: unknown }) => void;
}

/** Sections from 0 on in order, bends within. */
function wayFaults({ sections, bends }: Way, { unit }: Lengths, context: Issues): void {
  const fault = (path: (string | number)[], message: string) =>
    context.addIssue({ code: 'custom', path, message, input: sections });
  const words = (mm: number) => lengthWords(mm, unit);
  if (sections.length < 2) return;
  if (sections[0]!.at !== 0) fault(['sections', 0, 'at'], expected('0 for the first section', sections[0]!.at));
  sections.forEach((s, i) => {
    if (i === 0) return;
    const before = sections[i - 1]!.at;
    const third = i > 1 && sections[i - 2]!.at === s.at;
    if (s.at < before)
      fault(['sections', i, 'at'], `expected sections in order: ${words(before)} or more, found ${words(s.at)}`);
    else if (third) fault(['sections', i, 'at'], `two sections stand at ${words(s.at)} already: a step has no more`);
  });
  const end = sections.at(-1)!.at;
  if (end === 0)
    fault(['sections', sections.length - 1, 'at'], 'expected a last section beyond 0: the way has no length');
  bends.forEach((b, i) => {
    if (b.at < end) return;
    fault(['bends', i, 'at'], `expected a bend before the last section (${words(end)}), found ${words(b.at)}`);
  });
}
