import { clockPosition, type LedgeProfile } from '../../parts/flange/ledge.js';
import type { FlangePart } from '../../parts/flange/part.js';
import type { OutputFile } from '../output-file.js';
import { csvBytes } from './csv.js';

/** Width of a direction's sector, deg. */
const SECTOR = 10;

const HEADER = ['flange', 'cylinder', 'step', 'angle_deg', 'clock', 'ledge_mm'] as const;

/** The ledge that faces the gas all round every opening: the highest in each sector, angles counter-clockwise from x seen from the tubes. */
export function ledgesTable(flanges: readonly FlangePart[]): OutputFile {
  const rows = flanges.flatMap((f) =>
    f.flows.flatMap(({ cylinder, atHead, atTube }) => [
      ...sectors(atHead).map((s) => [f.name, cylinder, 'port to plate', ...s]),
      ...sectors(atTube).map((s) => [f.name, cylinder, 'plate to tube', ...s]),
    ]),
  );
  return { path: 'ledges.csv', kind: 'ledges', bytes: csvBytes(HEADER, rows) };
}

/** Angle, clock position and highest ledge of each sector; an empty cell where a small opening has no point in it. */
function sectors({ points }: LedgeProfile): (readonly [number, string, number | null])[] {
  const degreesOf = (angle: number): number => (((angle * 180) / Math.PI + 360) % 360) / SECTOR;
  return Array.from({ length: 360 / SECTOR }, (_, k) => {
    const here = points.filter((p) => Math.round(degreesOf(p.angle)) % (360 / SECTOR) === k);
    const most = here.length === 0 ? null : Math.max(...here.map((p) => p.height));
    return [k * SECTOR, clockPosition((k * SECTOR * Math.PI) / 180), most];
  });
}
