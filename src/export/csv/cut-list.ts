import { degrees } from '../../geometry/angle.js';
import type { TubeCuts } from '../../parts/tube/tube-cuts.js';
import type { OutputFile } from '../output-file.js';
import { csvBytes } from './csv.js';

const HEADER = [
  'cylinder',
  'secondary_from',
  'piece',
  'kind',
  'od_mm',
  'wall_mm',
  'leg_before_mm',
  'bend_deg',
  'clr_mm',
  'leg_after_mm',
  'inside_arc_mm',
  'centre_arc_mm',
  'outside_arc_mm',
  'length_mm',
  'from_mm',
  'to_mm',
  'clocking_to_next_bend_deg',
  'clocking_round_od_mm',
  'start_joint',
  'end_joint',
  'cut_leg_before_mm',
  'cut_leg_after_mm',
  'cut_length_mm',
] as const;

/**
 * The pieces of every tube in order from where it starts; of a primary `cylinder` is given, of a secondary `secondary_from`.
 * `from_mm` and `to_mm` are running lengths from the head face, where the first piece starts at the flange's outer face, or
 * from the outlet a secondary starts at. Clocking is right-handed along the flow. The
 * lengths of the route come first; the `cut_` columns are what to cut where the plan's welds have a gap or draw together.
 */
export function cutListTable(cuts: readonly TubeCuts[]): OutputFile {
  const deg = (a: number | null): number | null => (a === null ? null : degrees(a));
  const pieces = cuts.flatMap((t) => t.pieces);
  const rows = pieces.map((c) => [
    c.piece.cylinder,
    c.piece.cylinder === null ? c.piece.tube : null,
    c.piece.name,
    c.piece.kind,
    c.od,
    c.wall,
    c.legBefore,
    deg(c.angle),
    c.clr,
    c.legAfter,
    c.insideArc,
    c.centreArc,
    c.outsideArc,
    c.length,
    c.piece.fromRun,
    c.piece.toRun,
    deg(c.clocking),
    c.clockingRound,
    c.startJoint,
    c.endJoint,
    c.cutLegBefore,
    c.cutLegAfter,
    c.cutLength,
  ]);
  return { path: 'cut-list.csv', kind: 'cut-list', bytes: csvBytes(HEADER, rows) };
}
