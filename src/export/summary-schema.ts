import * as z from 'zod';

const mm = (what: string): z.ZodNumber => z.number().describe(`${what}, mm`);

const primary = z.strictObject({
  cylinder: z.int().positive(),
  collector: z.string(),
  inlet: z.int().positive().describe('Inlet of the collector, from 1.'),
  length_mm: mm('Centreline from the head face to the collector inlet plane'),
  target_mm: mm('Target length'),
  bends: z.int().nonnegative(),
  clearance_mm: mm(
    'Least gap of the tube to another tube, to itself or to kept-out space, before it draws together with others at its collector',
  ).nullable(),
});

const finding = z.strictObject({
  id: z.string(),
  level: z.enum(['ok', 'warn', 'fail']),
  place: z.string(),
  value: z.number(),
  limit: z.number(),
  unit: z.enum(['mm', 'deg', 'mm2', 'mm3', 'ratio', 'count']),
  message: z.string(),
});

const place = z.array(z.number()).length(3);

const collector = z.strictObject({
  name: z.string(),
  at_mm: place.describe('Centre of the inlet plane, mm: where the solver put it if the plan left it free'),
  direction: place.describe('The way of the gas, unit vector'),
  inlets: z.int().positive(),
  merge_length_mm: mm('From the inlet plane to the start of the cone'),
  total_length_mm: mm('From the inlet plane to the end of the outlet'),
  area_in_mm2: z.number().describe('Bore area of all inlets together, mm2'),
  area_merge_mm2: z.number().describe('Section of the gas way where the cone begins, mm2'),
  area_out_mm2: z.number().describe('Bore area of the outlet, mm2'),
  gas_volume_mm3: z.number().describe('Volume of the gas way from the inlets to the end of the outlet, mm3'),
  cut_angle_deg: z.number().nullable().describe('Angle between a tube and its cut planes, deg; null for one inlet'),
});

const plate = z.strictObject({
  name: z.string(),
  pattern: z.string(),
  for: z.array(z.string()).describe('Collectors whose outlets end in it'),
  pieces: z.int().positive(),
  at_mm: place
    .nullable()
    .describe('Centre of its opening, mm: the end of the outlet; null when it is for none or for two'),
  direction: place.nullable().describe('The way of the gas, unit vector'),
  thickness_mm: z.number(),
  mass_kg: z.number().nullable(),
  open_area_mm2: z.number().describe('All its openings together, mm2'),
  notes: z.array(z.string()),
});

const alternative = z.strictObject({
  number: z.int().positive().describe('1 is the one that is built.'),
  order: z.string().describe('Tubes at the inlets of every collector, from inlet 1.'),
  bends: z.int().nonnegative(),
  turning_deg: z.number().describe('Sum of all bend angles, deg'),
  least_clr_mm: mm('Smallest centreline radius').nullable(),
  least_gap_mm: mm('Smallest gap of any tube before it draws together with others at its collector').nullable(),
  pieces: z.int().positive(),
  length_mm: mm('Common length of the primaries'),
  cost: z.number().describe('What the search weighed it at; less is better'),
});

/** The shape of summary.json. */
export const summarySchema = z.strictObject({
  schema: z.literal('evenrun-summary-1'),
  name: z.string(),
  primaries: z.array(primary),
  secondaries: z.array(
    primary.omit({ cylinder: true }).extend({ from: z.string().describe('Collector it comes from.') }),
  ),
  spread_mm: mm('Longest minus shortest primary'),
  tolerance_mm: mm('Largest allowed spread'),
  passed: z.boolean().describe('True when no finding has the level fail'),
  collectors: z.array(collector),
  plates: z.array(plate),
  alternatives: z.array(alternative),
  findings: z.array(finding),
  files: z.array(z.strictObject({ path: z.string(), kind: z.string() })),
  cautions: z.array(z.string()),
});

export type Summary = z.infer<typeof summarySchema>;

/** JSON Schema (draft 7) of summary.json. */
export const summaryJsonSchema = (): object => z.toJSONSchema(summarySchema, { target: 'draft-7' });
