import { parseLength } from '../units.js';
import { ISO_ALL } from './iso-tubes.js';
import { PIPE_SIZES, PIPES, type PipeSize, SCHEDULES, type Schedule } from './pipe-sizes.js';

/** A size of tube by its name, mm; the wall is null where the name has none. */
export interface NamedSize {
  readonly od: number;
  readonly wall: number | null;
}

const PIPE = /^NPS\s+(\d+(?:\s+\d\/\d)?)(?:\s+(\d+S))?$/i;
const ISO = /^ISO\s+(\d+(?:\.\d+)?)(?:\s*x\s*(\d+(?:\.\d+)?))?(?:\s*mm)?$/i;

/** Thickest wall of a named tube, mm. */
const MOST_WALL = 20;

/**
 * Outside diameter and wall of a size such as `NPS 1 1/2 10S` (ASME B36.19M) `ISO 42.4 x 2` (ISO 1127, mm) or `1.75 in x 0.065 in`; in words what is
 * wrong with a text that names none.
 */
export function tubeSize(text: string): NamedSize | string {
  const [, nps, schedule] = PIPE.exec(text.trim()) ?? [];
  if (nps !== undefined) return pipeSize(nps.replace(/\s+/, ' '), schedule?.toUpperCase());
  const [, od, wall] = ISO.exec(text.trim()) ?? [];
  if (od !== undefined) return isoSize(Number(od), wall === undefined ? null : Number(wall));
  const [plainOd, plainWall, more] = text.split(' x ').map((t) => parseLength(t, 'mm'));
  if (plainOd && plainWall && more === undefined && plainOd > 0 && plainWall > 0)
    return { od: plainOd, wall: plainWall };
  return 'expected a size such as "NPS 1 1/2 10S" or "ISO 42.4 x 2"';
}

function pipeSize(nps: string, schedule: string | undefined): NamedSize | string {
  if (!PIPE_SIZES.includes(nps as PipeSize)) return `expected one of NPS ${PIPE_SIZES.join(', ')}`;
  const { od, walls } = PIPES[nps as PipeSize];
  if (schedule === undefined) return { od, wall: null };
  if (!SCHEDULES.includes(schedule as Schedule)) return `expected one of the schedules ${SCHEDULES.join(', ')}`;
  return { od, wall: walls[schedule as Schedule] };
}

function isoSize(od: number, wall: number | null): NamedSize | string {
  if (!ISO_ALL.includes(od)) return `expected one of the diameters of ISO 1127: ${ISO_ALL.join(', ')} mm`;
  if (wall !== null && (wall <= 0 || wall >= od / 2 || wall > MOST_WALL)) {
    return `expected a wall over 0 and under half the tube, at most ${MOST_WALL} mm`;
  }
  return { od, wall };
}
