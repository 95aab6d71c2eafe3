import { degrees } from '../geometry/angle.js';
import { lraFromPolygon } from '../geometry/lra.js';
import type { RoutedPrimary, RoutedSecondary, RoutedTube } from '../routing/routed.js';
import { type CsvCell, csvBytes } from './csv.js';
import type { OutputFile } from './output-file.js';

const HEADER = ['point', 'x_mm', 'y_mm', 'z_mm', 'clr_mm', 'bend_deg', 'rotation_deg', 'straight_before_mm'] as const;

/**
 * XYZ and LRA of every primary, one row a point: 0 is the head face, the last the collector inlet, those between the
 * intersection points. Full precision, so that anyone can recompute the lengths. Rotation is right-handed about the direction
 * of travel, against the bend before: positive is clockwise looking along the flow.
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
  return polygon.points.map((p, i) => {
    const row = rows[i - 1];
    const before = i === 0 ? null : (row?.straight ?? lastStraight);
    const bend = row ? [row.clr, degrees(row.angle), degrees(row.rotation)] : [null, null, null];
    return [tube, i, ...p, ...bend, before];
  });
}
