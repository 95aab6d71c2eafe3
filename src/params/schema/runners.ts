import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { expected } from '../faults/wording.js';
import { directionField } from '../fields/direction-field.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField, countField, numberField } from '../fields/number-field.js';
import { MOST_CYLINDERS, MOST_INLETS, MOST_ROUTE_POINTS } from '../limits.js';
import { routeWeightsSchema } from './route-weights.js';
import { targetLengthField } from './target-length.js';

/** `runners`: how long the primaries are, how far apart, and which are routed by hand. */
export function runnersSchema(lengths: Lengths) {
  return z
    .strictObject({
      length: targetLengthField(lengths),
      spread: lengths.positive('Largest allowed spread: longest minus shortest').prefault(DEFAULTS.runners.spread),
      clearance: lengths
        .atLeastZero('Least gap between the skins of two primaries', { max: 500 })
        .prefault(DEFAULTS.runners.clearance),
      heat_distance: lengths
        .atLeastZero('Least gap from a keep-out with heat: true', { max: 500 })
        .prefault(DEFAULTS.runners.heat_distance),
      weights: routeWeightsSchema(),
      budget: numberField('Longest the route search may work, s of the processor', 1, 600).default(
        DEFAULTS.runners.budget,
      ),
      route: z
        .enum(['auto', 'given'])
        .default(DEFAULTS.runners.route)
        .describe('auto routes every primary without an entry in routes; given wants an entry for each'),
      routes: z
        .array(z.discriminatedUnion('by', [xyzSchema(lengths), lraSchema(lengths)]))
        .max(MOST_CYLINDERS)
        .default([])
        .describe('Primaries routed by hand'),
      seed: countField('Seed of the route search: the same plan gives the same routes', 0, 2 ** 31 - 1).default(
        DEFAULTS.runners.seed,
      ),
    })
    .describe('The primaries: how long, how far apart, and which are routed by hand.');
}

const common = () => ({
  cylinder: countField('Cylinder of the primary', 1, MOST_CYLINDERS),
  inlet: countField('Inlet of the collector, from 1; the order decides when left out', 1, MOST_INLETS).optional(),
});

const clr = (lengths: Lengths) => lengths.positive('Centreline radius, one of tube.bends', { max: 1000 });

function xyzSchema(lengths: Lengths) {
  return z
    .strictObject({
      by: z.literal('xyz'),
      ...common(),
      points: z
        .array(lengths.point3('Intersection point [x, y, z]'))
        .min(2)
        .max(MOST_ROUTE_POINTS)
        .describe('The port, the intersection points of the straights, the inlet'),
      clr: z
        .union([clr(lengths), z.array(clr(lengths)).max(MOST_ROUTE_POINTS)], {
          error: (issue) => expected('a length, or a list of lengths with one for each bend', issue.input),
        })
        .describe('Centreline radius of every bend, or a list with one for each'),
    })
    .superRefine((route, context) => {
      const bends = route.points.length - 2;
      if (!Array.isArray(route.clr) || route.clr.length === bends) return;
      const message = `expected as many radii as the route has bends (${bends}), found ${route.clr.length}`;
      context.addIssue({ code: 'custom', path: ['clr'], message, input: route });
    })
    .describe('A route by its intersection points.');
}

function lraSchema(lengths: Lengths) {
  return z
    .strictObject({
      by: z.literal('lra'),
      ...common(),
      rows: z
        .array(
          z.strictObject({
            straight: lengths.atLeastZero('Straight before the bend'),
            rotation: angleField(
              'Turn of the bend plane against the bend before; positive is clockwise looking along the flow',
              -360,
              360,
            ).prefault(0),
            angle: angleField('Bend angle; make a U-bend from two rows with no straight between', 0.1, 170),
            clr: clr(lengths),
          }),
        )
        .min(1)
        .max(MOST_ROUTE_POINTS)
        .describe("Rows of a bender's table, from the port"),
      last_straight: lengths.atLeastZero('Straight after the last bend'),
      plane: directionField('Normal of the first bend plane: the tube bends right-handed about it'),
    })
    .describe('A route by length, rotation and angle, from the port.');
}
