import type { Mesh } from '../../geometry/mesh/mesh.js';
import { type Path, pathLength } from '../../geometry/path/path.js';
import { circlePoints } from '../../geometry/solid/solid-shapes.js';
import { type SweepSize, sweepSection } from '../../geometry/sweep/sweep.js';
import { CHORD_ERROR } from '../../geometry/tolerance.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { Vec3 } from '../../geometry/vec3.js';
import { type Key, SOCKET_FLOOR, socketRoom } from './key.js';

/** A dummy tube as its bore sees it. */
export interface BoreOf {
  readonly path: Path;
  /** The skin's, mm. */
  readonly radius: number;
  /** Wall of a hollow tube, mm; null for a solid one. */
  readonly wall: number | null;
  /** Radius of the way through for a cord, mm; null without. */
  readonly cord: number | null;
  /** Keys at the start and the end, lengths in mm; 0 is a plain end. */
  readonly start: { readonly key: Key; readonly length: number };
  readonly end: { readonly key: Key; readonly length: number };
  /** How far before its start the tube is begun, mm, to be cut off at a tilted face. */
  readonly back: number;
  /** Which way is up on the printer when it lies; null when it stands on its start. */
  readonly up: Vec3 | null;
  /** A unit direction square to the start and to `up`. */
  readonly side: Vec3;
}

/** Plastic round the way through a key, at the key's flat, mm. */
const ROUND_VENT = 1.2;

/** Radius of the way through the keys of a hollow tube, mm: what goes in must come out. */
const VENT = 2;

/** Radius of the largest circle about the centreline in a roofed section, over its own. */
const ROOFED_CIRCLE = Math.SQRT1_2;

/** Radius of the way through for a cord of that diameter with a fit all round, mm. */
export const cordRadius = (cord: number | null, fit: number): number | null => (cord === null ? null : cord / 2 + fit);

/**
 * What to cut out of a dummy tube along its centreline: the bore of a hollow one, narrowed at 45 degrees to a way through its
 * keys, or that way alone; null where there is neither. A tube that lies gets a bore with a roof of 45 degrees instead of the
 * upper half round, so that it prints without support. A tube too short for a bore between its keys stays solid but for the way through.
 */
export function tubeBore(tube: BoreOf): Mesh | null {
  const sizes = boreSizes(tube);
  if (sizes === null) return null;
  return sweepSection(tube.path, boreSection(tube), tube.side, sizes, CHORD_ERROR / 2);
}

/** The section of a bore of full size: a circle of the skin's radius less the wall, or its lower half under a roof. */
export function boreSection({ radius, wall, up }: Pick<BoreOf, 'radius' | 'wall' | 'up'>): Vec2[] {
  const bore = radius - (wall ?? 0);
  const round = circlePoints(bore, CHORD_ERROR / 2);
  // the sweep's y is direction x side: up
  const below = round.filter(([x, y]) => y < -1e-9 * bore || x <= -bore * (1 - 1e-9));
  return up === null ? round : [[bore, 0], [0, bore], ...below];
}

/** Sizes along the tube of a section of the bore's full size; null where nothing is cut. */
export function boreSizes({ path, radius, wall, cord, start, end, back, up }: BoreOf): SweepSize[] | null {
  if (wall === null && cord === null) return null;
  const length = pathLength(path);
  const full = radius - (wall ?? 0);
  const fits = up === null ? 1 : ROOFED_CIRCLE;
  const least = Math.min(start.key.flat, end.key.flat) - ROUND_VENT;
  const vent = (cord ?? Math.min(VENT, Math.max(least, 0.8))) / (full * fits);
  const [first, last] = [-back - 1, length + end.length + 1];
  const through: SweepSize[] = [
    { run: first, size: vent },
    { run: last, size: vent },
  ];
  if (wall === null || vent >= 1) return through;
  const narrow = full * (1 - vent);
  const head: SweepSize[] =
    start.length === 0
      ? [{ run: first, size: 1 }]
      : [
          { run: first, size: vent },
          { run: socketRoom(start.length), size: vent },
          { run: socketRoom(start.length) + narrow, size: 1 },
        ];
  const tail: SweepSize[] =
    end.length === 0
      ? [{ run: last, size: 1 }]
      : [
          { run: length - SOCKET_FLOOR - narrow, size: 1 },
          { run: length - SOCKET_FLOOR, size: vent },
          { run: last, size: vent },
        ];
  // a short one stays solid
  return tail[0]!.run - head.at(-1)!.run > 1 ? [...head, ...tail] : through;
}
