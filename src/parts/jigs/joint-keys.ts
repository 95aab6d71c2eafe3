import { segmentLength } from '../../geometry/path/path.js';
import { scale, type Vec3 } from '../../geometry/vec3.js';
import type { JigPlan } from '../../params/plan.js';
import type { Piece } from '../tube/pieces.js';
import { takesScrew } from './joint-screw.js';
import { type Key, keyFor, LEAST_KEY, SOCKET_FLOOR, SOCKET_RELIEF } from './key.js';

/** The key of one joint and its length, mm; 0 is a plain joint, glued face to face. */
export interface JointKey {
  readonly key: Key;
  readonly length: number;
  /** The way out of the tube to the head of the screw across the key, world; null without a screw. */
  readonly screw: Vec3 | null;
}

/** Gap per side at the dummy tubes' joints, mm. */
export const jointGap = (jig: Pick<JigPlan, 'joint' | 'pressFit' | 'fit'>): number =>
  jig.joint === 'press' ? jig.pressFit : jig.fit;

/** Wall left round the bottom of a straight socket in a tube that bends away from it, mm. */
const BEND_WALL = 2;

/**
 * The keys of a tube, one per joint from what carries its first piece to the collector's holder. Where parts of two sizes
 * meet, the key is that of the smaller; `carrier` is the diameter its first piece stands on, mm. As long as the plan's key
 * length, less where the piece that holds the socket is too short or bends away too soon; plain where less than 3 mm is left.
 * Screws stand opposite the keys' flats; `out` is where the last one's head goes, in the collector's holder, world.
 */
export function jointKeys(pieces: readonly Piece[], jig: JigPlan, carrier: number, out: Vec3 | null): JointKey[] {
  const gap = jointGap(jig);
  const keys = pieces.map((piece, i) => keyFor(Math.min(pieces[i - 1]?.od ?? carrier, piece.od), gap));
  const last = keyFor(pieces[pieces.length - 1]!.od, gap);
  const screw = (length: number, way: Vec3 | null) => (jig.joint === 'screw' && takesScrew(length) ? way : null);
  const inside = pieces.map((piece, i): JointKey => {
    const room = Math.min(jig.keyLength, roomInside(piece, keys[i]!, keys[i + 1] ?? last));
    const length = room < LEAST_KEY ? 0 : room;
    return { key: keys[i]!, length, screw: screw(length, scale(piece.startNormal, -1)) };
  });
  return [...inside, { key: last, length: jig.keyLength, screw: screw(jig.keyLength, out) }];
}

/** The longest key a piece's start can take, mm; `far` is the key at its other end. */
function roomInside(piece: Piece, key: Key, far: Key): number {
  const turn = piece.path.segments.reduce((sum, s) => sum + (s.kind === 'bend' ? s.angle : 0), 0);
  // the far end leans towards the socket by the bend's angle, and its spigot's root with it
  const lean = far.radius * Math.sin(Math.min(turn, Math.PI / 2));
  const whole = piece.toRun - piece.fromRun - lean - SOCKET_FLOOR - SOCKET_RELIEF;
  let leg = 0;
  for (const s of piece.path.segments) {
    if (s.kind === 'bend') {
      // the socket's far corner on the outside of the bend stays a wall inside the tube: Pythagoras about the bend's centre
      const outside = s.clr + piece.od / 2 - BEND_WALL;
      const corner = s.clr + key.radius + key.fit;
      const beyond = Math.sqrt(Math.max(0, outside * outside - corner * corner));
      return Math.min(whole, leg + beyond - SOCKET_RELIEF);
    }
    leg += segmentLength(s);
  }
  return whole;
}
