import * as z from 'zod';

const mm = (what: string): z.ZodNumber => z.number().describe(`${what}, mm`);

const primary = z.strictObject({
  cylinder: z.int().positive().describe('Cylinder number'),
  collector: z.string().describe('Collector it leads to'),
  inlet: z.int().positive().describe('Inlet of the collector, from 1.'),
  length_mm: mm('Centreline from the head face to the collector inlet plane'),
  target_mm: mm('Target length'),
  bends: z.int().nonnegative().describe('Bends to be cut; a U-bend is one'),
  clearance_mm: mm(
    'Least gap of the tube to another tube, to itself or to kept-out space, before it draws together with others at its collector',
  ).nullable(),
});

const finding = z.strictObject({
  id: z.string().describe('Name of the check, stable for scripts; the guide `findings` tells what each means'),
  level: z.enum(['ok', 'warn', 'fail']).describe('ok holds, warn wants a look, fail breaks a limit of the plan'),
  place: z.string().describe('Where'),
  value: z.number().describe('What was found, in `unit`'),
  limit: z.number().describe('What is allowed, in `unit`'),
  unit: z.enum(['mm', 'deg', 'mm2', 'mm3', 'ratio', 'count', 's']).describe('Unit of value and limit'),
  message: z.string().describe('One sentence to read'),
});

const place = z.array(z.number()).length(3);

const branch = z.strictObject({
  end_mm: place.describe('Middle of its open end, mm'),
  direction: place.describe('Its way out, unit vector'),
  od_mm: mm('Outside diameter'),
  angle_deg: z.number().describe('Between the branch and the way of the gas, deg'),
  area_to_inlets: z.number().describe('Its bore area over that of all inlets'),
});

const collector = z.strictObject({
  name: z.string().describe('As the plan calls it'),
  at_mm: place.describe('Centre of the inlet plane, mm: where the solver put it if the plan left it free'),
  direction: place.describe('The way of the gas, unit vector'),
  inlets: z.int().positive().describe('Number of inlets'),
  merge_length_mm: mm('From the inlet plane to the start of the cone'),
  total_length_mm: mm('From the inlet plane to the end of the outlet'),
  area_in_mm2: z.number().describe('Bore area of all inlets together, mm2'),
  area_merge_mm2: z.number().describe('Section of the gas way where the cone begins, mm2'),
  area_out_mm2: z.number().describe('Bore area of the outlet, mm2'),
  gas_volume_mm3: z.number().describe('Volume of the gas way from the inlets to the end of the outlet, mm3'),
  cut_angle_deg: z.number().nullable().describe('Angle between a tube and its cut planes, deg; null for one inlet'),
  merge_volume_mm3: z.number().describe('Gas from the inlets to the start of the cone, mm3'),
  cone_half_angle_deg: z
    .number()
    .describe('Of the round cone of the same areas and length, deg; negative where it draws in'),
  throat_mm: mm('Bore of the throat; null without one').nullable(),
  diffuser_half_angle_deg: z.number().nullable().describe('From the throat to the outlet, deg; null without a throat'),
  heel_mm: mm(
    'Along the outside of a tube from its inlet end to where its cut begins; null when it is not cut',
  ).nullable(),
  spike_mm: mm('The same to where the cuts meet on the axis; null for fewer than three inlets').nullable(),
  toe_mm: mm('The same to where its cut runs out; null when it is not cut').nullable(),
  centre: z.enum(['open', 'spike']).describe('Whether a filler closes the hole between the tubes'),
  slip_overlap_mm: mm('How far its sleeves reach over the tubes; null when they are welded on').nullable(),
  mass_kg: z.number().describe('Of its walls, fillers and sleeves, kg'),
  branch: branch.nullable().describe('A pipe that leaves its side, to a wastegate say; null for none'),
  notes: z.array(z.string()).describe('Sentences for the one who builds it'),
});

const plate = z.strictObject({
  name: z.string().describe('As the plan calls it'),
  pattern: z.string().describe('Its kind: round, oval_two_bolt, ...'),
  for: z.array(z.string()).describe('Collectors whose outlets end in it'),
  pieces: z.int().positive().describe('Pieces to make'),
  at_mm: place
    .nullable()
    .describe('Centre of its opening, mm: the end of the outlet; null when it is for none or for two'),
  direction: place.nullable().describe('The way of the gas, unit vector'),
  thickness_mm: mm('Thickness'),
  mass_kg: z.number().nullable().describe('Of one, kg; null where the density is not known'),
  open_area_mm2: z.number().describe('All its openings together, mm2'),
  notes: z.array(z.string()).describe('Sentences for the one who builds it'),
});

const stock = z.strictObject({
  pieces: z.int().nonnegative().describe('Pieces of stock begun'),
  minimised: z.enum(['pieces', 'price']).describe('What was made least'),
  value: z.number().describe('What it comes to: pieces of stock, or their price'),
  bound: z.number().describe('Nothing less makes the pieces: proven'),
  optimal: z.boolean().describe('True when value meets bound'),
  first_fit: z.number().nullable().describe('What first-fit-decreasing comes to; null where it makes fewer pieces'),
  price: z.number().nullable().describe('Of all stock; null when a price is not given'),
  currency: z.string().nullable().describe('As the plan writes it; null without prices'),
  shopping: z
    .array(
      z.strictObject({
        item: z.string().describe('What to buy'),
        count: z.int().positive().describe('How many'),
        price: z.number().nullable().describe('Of all of them; null when not given'),
      }),
    )
    .describe('What to buy'),
  tube_mass_kg: z.number().nullable().describe('Of the pieces, kg; null where the density is not known'),
  weld_length_mm: mm('Once round the tube at every joint and end, along the seams of every merge and round its end'),
  filler_mass_kg: z.number().nullable().describe('Estimate, kg'),
  purge_volume_l: z.number().describe('The bores of all tubes, filled once, litres'),
  unmade: z
    .array(z.strictObject({ piece: z.string().describe('Name of the piece'), why: z.string().describe('In words') }))
    .describe('Pieces no stock of the plan makes'),
});

const alternative = z.strictObject({
  number: z.int().positive().describe('1 is the one that is built.'),
  order: z.string().describe('Tubes at the inlets of every collector, from inlet 1.'),
  bends: z.int().nonnegative().describe('Of all tubes'),
  turning_deg: z.number().describe('Sum of all bend angles, deg'),
  least_clr_mm: mm('Smallest centreline radius').nullable(),
  least_gap_mm: mm('Smallest gap of any tube before it draws together with others at its collector').nullable(),
  pieces: z.int().positive().describe('Pieces of stock begun'),
  length_mm: mm('Common length of the primaries'),
  cost: z.number().describe('What the search weighed it at; less is better'),
});

/** The shape of summary.json. */
export const summarySchema = z.strictObject({
  schema: z.literal('evenrun-summary-1').describe('Which version of this shape it is'),
  name: z.string().describe('As the plan calls the header'),
  primaries: z.array(primary).describe('By cylinder'),
  secondaries: z
    .array(primary.omit({ cylinder: true }).extend({ from: z.string().describe('Collector it comes from.') }))
    .describe('Tubes between collectors; none without 4-2-1'),
  spread_mm: mm('Longest minus shortest primary'),
  tolerance_mm: mm('Largest allowed spread'),
  units: z
    .enum(['mm', 'in'])
    .describe('Unit the plan is written in, and sentences here are: numbers are in mm all the same'),
  passed: z.boolean().describe('True when no finding has the level fail'),
  collectors: z.array(collector).describe('In the order of the plan; empty where nothing was built'),
  plates: z.array(plate).describe('Plates beside the head flanges'),
  stock: stock.nullable().describe('What to buy; null where nothing was built'),
  alternatives: z
    .array(alternative)
    .describe('Sets of routes that were compared; empty unless more than one was asked for'),
  findings: z.array(finding).describe('Every check at every place'),
  files: z
    .array(
      z.strictObject({
        path: z.string().describe('Relative to the folder, with forward slashes'),
        kind: z.string().describe('What it is for'),
      }),
    )
    .describe('Every file beside this one; empty where nothing was built'),
  cautions: z.array(z.string()).describe('What can hurt, and who decides'),
  plan_hash: z
    .string()
    .describe('SHA-256 of the plan, hex: of its text, and of the files it names; papers carry the first 12 digits'),
  target_from: z
    .string()
    .describe('What gave the target length: the plan, a band of it, or a published rule and its engine speed'),
});

/** What summary.json holds: lengths in mm, angles in degrees, areas and volumes in the unit their name ends in. */
export interface Summary extends z.infer<typeof summarySchema> {}

/** JSON Schema (draft 7) of summary.json. */
export const summaryJsonSchema = (): object => z.toJSONSchema(summarySchema, { target: 'draft-7' });
