import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { expected } from '../faults/wording.js';
import { directionField } from '../fields/direction-field.js';
import type { Lengths } from '../fields/length-field.js';
import { countField } from '../fields/number-field.js';
import { MOST_BLOCK_BOLTS, MOST_BOLTS } from '../limits.js';
import { BOLT_THREADS } from '../tables/bolt-holes.js';
import { benchSchema } from './jig-bench.js';
import { printSchema } from './jig-print.js';

/** `jig`: the printer and the printed mock-up. */
export function jigSchema(lengths: Lengths) {
  const { bed, fit, plate, key_length, gap, chamfer, comb } = DEFAULTS.jig;
  const side = (about: string) => lengths.positive(about, { max: 2000 });
  return z
    .strictObject({
      bed: z
        .tuple([side('x'), side('y'), side('height')])
        .prefault([bed, bed, bed])
        .describe('Usable size of the printer: x, y, height'),
      fit: lengths.atLeastZero('Gap per side where printed parts slide together', { max: 2 }).prefault(fit),
      plate: lengths.positive('Thickness of printed plates', { max: 50 }).prefault(plate),
      key_length: lengths.positive("Length of the key at a dummy tube's joint", { max: 100 }).prefault(key_length),
      strut: strutSchema(lengths),
      gap: lengths.atLeastZero('Least gap between parts on a build plate. Common practice', { max: 100 }).prefault(gap),
      print: printSchema(lengths),
      bench: benchSchema(lengths),
      ...tubeFields(lengths),
      chamfer: lengths
        .atLeastZero("Chamfer of the first layers against an elephant's foot. Common practice", { max: 2 })
        .prefault(chamfer),
      foot: footSchema(),
      holder: holderSchema(lengths),
      comb: z
        .boolean()
        .default(comb)
        .describe('A comb that keeps primaries their distance where they run close side by side'),
    })
    .prefault({})
    .describe('The printer and the printed mock-up.');
}

/** Diameter of the struts, or the program's choice. */
function strutSchema(lengths: Lengths) {
  const about =
    'Diameter of the struts of the collector holders, or auto: the struts of least plastic that hold them still, or nearly as still as any would';
  return z
    .union([z.literal('auto'), lengths.positive(about, { max: 100 })], {
      error: (issue: { readonly input?: unknown }) =>
        expected('auto or a length such as 16 or "5/8 in", over 0 and at most 100 mm', issue.input),
    })
    .default(DEFAULTS.jig.strut)
    .describe(about);
}

/** Fields of the dummy tubes themselves. */
function tubeFields(lengths: Lengths) {
  const { joint, press_fit, tube, tube_wall, scale, marks } = DEFAULTS.jig;
  return {
    joint: z
      .enum(['press', 'slide', 'screw'])
      .default(joint)
      .describe(
        'How dummy tubes hold together: pressed with press_fit, slid with fit and glued, or slid and held by an M3 screw across the key',
      ),
    press_fit: lengths
      .atLeastZero("Gap per side of a pressed joint: a printed key swells into it. Try your printer's", { max: 2 })
      .prefault(press_fit),
    tube: z
      .enum(['solid', 'hollow'])
      .default(tube)
      .describe('hollow bores the dummy tubes between their keys; prints without support'),
    tube_wall: lengths
      .atLeastZero('Wall of hollow dummy tubes. Common practice: a few lines of the nozzle', { min: 1.2, max: 20 })
      .prefault(tube_wall),
    cord: lengths
      .atLeastZero(
        "Diameter of an elastic cord threaded through every tube's centreline and knotted under the port's plug and under the holder's base; a stiff rod passes straights only. A collector that feeds another has its stem over those holes: hold its tubes by press or screw",
        { min: 1, max: 20 },
      )
      .optional(),
    scale: z
      .boolean()
      .default(scale)
      .describe(
        'Ticks along the dummy tubes by running length from the head face: every 10 mm and 50 mm, or 1/2 in and 1 in for a plan in inches',
      ),
    marks: z
      .boolean()
      .default(marks)
      .describe("Cut lines of the steel pieces, clocking lines and the joints' names on the dummy tubes"),
  };
}

function footSchema() {
  const error = (issue: { readonly input?: unknown }) => expected('true, false or a list of bolts', issue.input);
  return z
    .union(
      [
        z.boolean(),
        z.strictObject({
          bolts: z
            .array(countField('Bolt of the head, from 1 in the order of the plan', 1, MOST_BOLTS))
            .min(1)
            .max(MOST_BOLTS)
            .describe('Bolts of the head they may stand on, from 1 in the order of the plan'),
        }),
      ],
      { error },
    )
    .default(DEFAULTS.jig.foot)
    .describe(
      "A foot bolted to the flange under the first piece of every primary, that carries it at the port's angle",
    );
}

function holderSchema(lengths: Lengths) {
  return z
    .strictObject({
      collector: z.string().optional().describe('Name of the collector it holds; the first when left out'),
      bolts: z
        .array(
          z.strictObject({
            at: lengths.point3('Where the axis of the threaded hole meets the face'),
            normal: directionField('The way out of the face'),
            thread: z
              .enum(BOLT_THREADS)
              .default(DEFAULTS.jig.holder.thread)
              .describe('Thread; gives the clearance hole, series medium'),
          }),
        )
        .min(2)
        .max(MOST_BLOCK_BOLTS)
        .describe('Threaded holes on the block, two or more'),
    })
    .optional()
    .describe(
      "Stands a collector's holder on bolts of the block; left out, every holder stands on the bolts of its flange",
    );
}
