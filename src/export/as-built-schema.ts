import * as z from 'zod';

const mm = (what: string): z.ZodNumber => z.number().describe(`${what}, mm`);
const verdict = z
  .enum(['inside', 'outside', 'cannot tell'])
  .describe(
    'inside and outside hold whatever the measurements are off by; cannot tell: they are too coarse, or a tube is not measured',
  );

const deviation = z.strictObject({
  kind: z.enum(['length', 'angle', 'clocking']),
  place: z.string(),
  piece: z.string().nullable(),
  joint: z.string().nullable().describe('Joint that mends it'),
  measured: z.number(),
  planned: z.number(),
  off: z
    .number()
    .describe('Measured less planned; a clocking is right-handed along the gas, clockwise looking along the flow'),
  unit: z.enum(['mm', 'deg']),
  effect_mm: mm('How far it moves the end of the tube'),
});

const tube = z.strictObject({
  tube: z.string(),
  name: z.string(),
  measured_by: z.enum(['length', 'pieces', 'string', 'water', 'points']),
  length_mm: mm('True length'),
  uncertainty_mm: mm('What it may be off by, plus and minus'),
  route_mm: mm('Length of the route'),
  target_mm: mm('Target length'),
  off_route_mm: mm('True length less the route'),
  off_target_mm: mm('True length less the target'),
  deviations: z.array(deviation).describe('What moves the end of the tube most first'),
});

const way = z.strictObject({
  changes: z.array(
    z.strictObject({
      straight: z.int().positive().describe('From 1 where the tube starts'),
      joint: z.string().nullable().describe('Joint to open'),
      joints: z.array(z.string()).describe('Every joint on that straight'),
      pieces: z.array(z.string()),
      change_mm: mm('Negative to cut off, positive to let in'),
    }),
  ),
  shift: z.array(z.number()).length(3).describe('Where the end then stands off the collector inlet, world, mm'),
  shift_mm: mm('The same as a distance'),
});

const group = z.strictObject({
  of: z.enum(['primaries', 'secondaries']),
  tolerance_mm: mm('Largest allowed spread'),
  spread_mm: mm('Longest less shortest, as measured'),
  uncertainty_mm: mm('What the spread may be off by, plus and minus'),
  verdict,
  unmeasured: z.array(z.string()).describe('Tubes that were not measured'),
  tubes: z.array(tube),
  aim: z
    .strictObject({ from_mm: mm('Shortest'), to_mm: mm('Longest') })
    .nullable()
    .describe('What the tubes are to be brought between; null when nothing is to be done'),
  mends: z.array(
    z.strictObject({
      tube: z.string(),
      change_mm: mm('Negative to cut off, positive to let in'),
      ways: z.array(way).describe('The one advised first'),
    }),
  ),
});

/** What `evenrun measure --json` prints. */
export const asBuiltSummarySchema = z.strictObject({
  schema: z.literal('evenrun-as-built-1'),
  name: z.string(),
  verdict,
  groups: z.array(group),
  cautions: z.array(z.string()),
});

export type AsBuiltSummary = z.infer<typeof asBuiltSummarySchema>;
