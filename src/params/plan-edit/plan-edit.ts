import * as z from 'zod';
import { LARGEST_LENGTH, MOST_CYLINDERS, MOST_INLETS, MOST_ROUTE_POINTS } from '../limits.js';

/** Most changes of a plan that are applied at once. */
export const MOST_EDITS = 200;

const length = z.number().min(-LARGEST_LENGTH).max(LARGEST_LENGTH);
const component = z.number().min(-1e6).max(1e6);
const angle = z.number().min(-100).max(100);
const index = z.int().min(0).max(999);
const triple = <T extends z.ZodType<number>>(of: T) => z.tuple([of, of, of]).readonly();

/** One change of a plan, as it comes from a page: mm, rad. Collectors, bends of stock and keep-outs are counted from 0 in the order of the file. */
export const planEditSchema = z.discriminatedUnion('edit', [
  z.strictObject({ edit: z.literal('runners'), field: z.enum(['length', 'spread', 'clearance']), value: length }),
  z.strictObject({ edit: z.literal('secondaries'), field: z.enum(['length', 'spread']), value: length }),
  z.strictObject({ edit: z.literal('tube-clr'), bend: index, value: length }),
  z.strictObject({ edit: z.literal('collector-at'), collector: index, at: triple(length) }),
  z.strictObject({ edit: z.literal('collector-direction'), collector: index, direction: triple(component) }),
  z.strictObject({
    edit: z.literal('collector-angle'),
    collector: index,
    field: z.enum(['clocking', 'merge_half_angle']),
    value: angle,
  }),
  z.strictObject({ edit: z.literal('collector-gap'), collector: index, value: length }),
  /** The whole keep-out moves with its reference point: of a box its lowest corner, of a bar its `from` end, of a plane its point, of a scan its origin. */
  z.strictObject({ edit: z.literal('keep-out-at'), keepOut: index, at: triple(length) }),
  /** `point` counts from 0, the port. */
  z.strictObject({
    edit: z.literal('route-point'),
    cylinder: z.int().min(1).max(MOST_CYLINDERS),
    point: index,
    at: triple(length),
  }),
  /** Takes a route as given by hand: it stands as it is from then on. */
  z.strictObject({
    edit: z.literal('take-route'),
    cylinder: z.int().min(1).max(MOST_CYLINDERS),
    inlet: z.int().min(1).max(MOST_INLETS),
    points: z.array(triple(length)).min(2).max(MOST_ROUTE_POINTS).readonly(),
    clr: z.array(length).max(MOST_ROUTE_POINTS).readonly(),
  }),
]);

export type PlanEdit = z.infer<typeof planEditSchema>;
