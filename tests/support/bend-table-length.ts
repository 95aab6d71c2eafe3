import type { ControlPolygon } from '../../src/geometry/path/control-polygon.js';
import type { Vec3 } from '../../src/geometry/vec3.js';
import { tubeShape } from './dense-tube.js';

/** The tubes of a bend table by cylinder, from its text alone: intersection points and radii. */
export function tubesFromBendTable(csv: string): Map<number, ControlPolygon> {
  const [header, ...lines] = csv.trim().split('\r\n');
  const column = new Map(header!.split(',').map((name, i) => [name, i]));
  const cell = (row: string[], name: string): number => Number(row[column.get(name)!]);
  const tubes = new Map<number, { points: Vec3[]; clr: number[] }>();
  for (const line of lines) {
    const row = line.split(',');
    const cylinder = cell(row, 'cylinder');
    const tube = tubes.get(cylinder) ?? { points: [], clr: [] };
    tube.points.push([cell(row, 'x_mm'), cell(row, 'y_mm'), cell(row, 'z_mm')]);
    if (row[column.get('clr_mm')!] !== '') tube.clr.push(cell(row, 'clr_mm'));
    tubes.set(cylinder, tube);
  }
  return tubes;
}

/**
 * Lengths recomputed from the text of a bend table alone, with none of the program's own geometry: for every cylinder the
 * distances between points, less twice the tangent R tan(a / 2) and plus the arc R a at every inner point.
 */
export const lengthsFromBendTable = (csv: string): Map<number, number> =>
  new Map([...tubesFromBendTable(csv)].map(([cylinder, tube]) => [cylinder, tubeShape(tube).length]));
