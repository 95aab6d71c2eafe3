import { degrees } from '../../geometry/angle.js';
import { lraFromPolygon } from '../../geometry/path/lra.js';
import type { RoutedPrimary, RoutedSecondary, RoutedTube } from '../../routing/routed.js';
import type { OutputFile } from '../output-file.js';
import { type CsvCell, csvBytes } from './csv.js';
import { bothSenses } from './turn-senses.js';

const HEADER = [
  'point',
  'x_mm',
  'y_mm',
  'z_mm',
  'clr_mm',
  'bend_deg',
  'rotation_deg',
  'straight_before_mm',
  'rotation_ccw_deg',
  'arc_mm',
  'distance_between_bends_mm',
  'developed_to_here_mm',
] as const;

/**
 * XYZ and LRA of every primary, one row a point: 0 is the head face, the last the collector inlet, those between the
 * intersection points. Full precision, so that anyone can recompute the lengths. `rotation_deg` is right-handed about the direction
 * of travel, against the bend before: positive is clockwise looking along the flow. `rotation_ccw_deg` is the same turn made the
 * other way round, counter-clockwise looking along the flow, from 0 to 360. `distance_between_bends_mm` is the straight from the end of
 * the bend before to where this one begins, tangent point to tangent point; `developed_to_here_mm` the centreline from point 0 to
 * the end of this row's bend, in the last row the whole tube.
 */
export const bendTable = (primaries: readonly RoutedPrimary[]): OutputFile => ({
  path: 'bend-table.csv',
  kind: 'bend-table',
  bytes: csvBytes(
    ['cylinder', ...HEADER],
    primaries.flatMap((p) => rowsOf(p.cylinder, p)),
  ),
});

/** The same of every secondary, named by the collector it comes from; point 0 is that collector's outlet. */
export const secondaryBendTable = (secondaries: readonly RoutedSecondary[]): OutputFile => ({
  path: 'secondary-bend-table.csv',
  kind: 'bend-table',
  bytes: csvBytes(
    ['from', ...HEADER],
    secondaries.flatMap((s) => rowsOf(s.id, s)),
  ),
});

function rowsOf(tube: CsvCell, { polygon }: RoutedTube): CsvCell[][] {
  const { rows, lastStraight } = lraFromPolygon(polygon);
  let developed = 0;
  return polygon.points.map((p, i) => {
    const row = rows[i - 1];
    const before = i === 0 ? null : (row?.straight ?? lastStraight);
    const arc = row ? row.clr * row.angle : null;
    developed += (before ?? 0) + (arc ?? 0);
    const bend = row ? [row.clr, degrees(row.angle), degrees(row.rotation)] : [null, null, null];
    const otherWay = row ? bothSenses(row.rotation).counterClockwise : null;
    const between = row && i > 1 ? row.straight : null;
    return [tube, i, ...p, ...bend, before, otherWay, arc, between, developed];
  });
}
