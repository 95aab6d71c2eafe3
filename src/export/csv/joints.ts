import { radians } from '../../geometry/angle.js';
import type { Joint } from '../../parts/tube/joint.js';
import type { TubeCuts } from '../../parts/tube/tube-cuts.js';
import type { OutputFile } from '../output-file.js';
import { type CsvCell, csvBytes } from './csv.js';
import { bothSenses } from './turn-senses.js';

const HEADER = [
  'joint',
  'cylinder',
  'secondary_from',
  'number',
  'kind',
  'piece_before',
  'piece_after',
  'run_mm',
  'od_mm',
  'wall_mm',
  'gap_mm',
  'shrinkage_mm',
  'clocking_deg',
  'clocking_ccw_deg',
  'round_od_mm',
  'round_od_ccw_mm',
  'weld_length_mm',
  'x_mm',
  'y_mm',
  'z_mm',
  'direction_x',
  'direction_y',
  'direction_z',
] as const;

/**
 * joints.csv: every joint of every tube from where it starts to the collector inlet. `clocking_deg` turns the reference line of the piece
 * before (the line of the last bend's outside, carried along straights) to that of the piece after, from 0 to 360 right-handed
 * about the way of the gas: clockwise looking along the flow; `clocking_ccw_deg` is the same turn the other way round. `round_od_mm`
 * and `round_od_ccw_mm` are the same as distances round the outside of the piece after. At joint 0 the line before is the head's up, at an outlet the
 * collector's x. x, y, z is the centre of the joint, the direction the way of the gas.
 */
export const jointsTable = (cuts: readonly TubeCuts[]): OutputFile => ({
  path: 'joints.csv',
  kind: 'joints',
  bytes: csvBytes(
    HEADER,
    cuts.flatMap((tube) => tube.joints.map((joint) => rowOf(tube, joint))),
  ),
});

function rowOf({ pieces }: TubeCuts, j: Joint): CsvCell[] {
  const { cylinder } = pieces[0]!.piece;
  const senses = j.clocking === null ? null : bothSenses(j.clocking);
  const od = pieces.find((c) => c.piece.name === j.after)?.od ?? j.od;
  const round = (deg: number | undefined): number | null => (deg === undefined ? null : (radians(deg) * od) / 2);
  return [
    j.name,
    cylinder,
    cylinder === null ? j.tube : null,
    j.number,
    j.kind,
    j.before,
    j.after,
    j.run,
    j.od,
    j.wall,
    j.gap,
    j.shrinkage,
    senses?.clockwise ?? null,
    senses?.counterClockwise ?? null,
    round(senses?.clockwise),
    round(senses?.counterClockwise),
    j.weldLength,
    ...j.point,
    ...j.direction,
  ];
}
