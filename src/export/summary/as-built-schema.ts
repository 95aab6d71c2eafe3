import * as z from 'zod';

const mm = (what: string): z.ZodNumber => z.number().describe(`${what}, mm`);
const verdict = z
  .enum(['inside', 'outside', 'cannot tell'])
  .describe(
    'inside and outside hold whatever the measurements are off by; cannot tell: they are too coarse, or a tube is not measured',
  );

const deviation = z.strictObject({
  kind: z.enum(['length', 'angle', 'clocking']).describe('What differs from the route'),
  place: z.string().describe('Where'),
  piece: z.string().nullable().describe('Piece it is in; null between two'),
  joint: z.string().nullable().describe('Joint that mends it'),
  measured: z.number().describe('In `unit`'),
  planned: z.number().describe('In `unit`'),
  off: z
    .number()
    .describe('Measured less planned; a clocking is right-handed along the gas, clockwise looking along the flow'),
  unit: z.enum(['mm', 'deg']).describe('Unit of the three'),
  effect_mm: mm('How far it moves the end of the tube'),
});

const tube = z.strictObject({
  tube: z.string().describe('Cylinder number, or the collector a secondary comes from'),
  name: z.string().describe('As reports call it'),
  measured_by: z.enum(['length', 'pieces', 'string', 'water', 'points']).describe('How it was measured'),
  length_mm: mm('True length'),
  uncertainty_mm: mm('What it may be off by, plus and minus'),
  route_mm: mm('Length of the route'),
  target_mm: mm('Target length'),
  off_route_mm: mm('True length less the route'),
  off_target_mm: mm('True length less the target'),
  deviations: z.array(deviation).describe('What moves the end of the tube most first'),
});

const way = z.strictObject({
  changes: z
    .array(
      z.strictObject({
        straight: z.int().positive().describe('From 1 where the tube starts'),
        joint: z.string().nullable().describe('Joint to open'),
        joints: z.array(z.string()).describe('Every joint on that straight'),
        pieces: z.array(z.string()).describe('Pieces on that straight'),
        change_mm: mm('Negative to cut off, positive to let in'),
      }),
    )
    .describe('Straights to change'),
  shift: z.array(z.number()).length(3).describe('Where the end then stands off the collector inlet, world, mm'),
  shift_mm: mm('The same as a distance'),
});

const group = z.strictObject({
  of: z.enum(['primaries', 'secondaries']).describe('Which tubes'),
  tolerance_mm: mm('Largest allowed spread'),
  spread_mm: mm('Longest less shortest, as measured'),
  uncertainty_mm: mm('What the spread may be off by, plus and minus'),
  verdict,
  unmeasured: z.array(z.string()).describe('Tubes that were not measured'),
  tubes: z.array(tube).describe('Those that were measured'),
  aim: z
    .strictObject({ from_mm: mm('Shortest'), to_mm: mm('Longest') })
    .nullable()
    .describe('What the tubes are to be brought between; null when nothing is to be done'),
  mends: z
    .array(
      z.strictObject({
        tube: z.string().describe('Cylinder number, or the collector a secondary comes from'),
        change_mm: mm('Negative to cut off, positive to let in'),
        ways: z.array(way).describe('The one advised first'),
      }),
    )
    .describe('What to do, tube by tube'),
});

/** What `evenrun measure --json` prints. */
export const asBuiltSummarySchema = z.strictObject({
  schema: z.literal('evenrun-as-built-1').describe('Which version of this shape it is'),
  name: z.string().describe('As the plan calls the header'),
  verdict,
  groups: z.array(group).describe('Primaries, then secondaries'),
  cautions: z.array(z.string()).describe('What can hurt, and who decides'),
});

/** What `evenrun measure --json` prints: lengths in mm, angles in degrees. */
export interface AsBuiltSummary extends z.infer<typeof asBuiltSummarySchema> {}
