import { segmentLength } from '../../geometry/path.js';
import type { JigPlan } from '../../params/plan.js';
import type { Piece } from '../pieces.js';
import { type Key, LEAST_KEY, SOCKET_FLOOR, SOCKET_RELIEF } from './key.js';

/** Wall left round the bottom of a straight socket in a tube that bends away from it, mm. */
const BEND_WALL = 2;

/**
 * Lengths of a primary's keys, mm, one per joint from the plug to the collector's holder: the plan's key length, less where
 * the piece that holds the socket is too short or bends away too soon. 0 is a plain joint, where less than 3 mm is left.
 */
export function keyLengths(pieces: readonly Piece[], jig: JigPlan, key: Key, od: number): number[] {
  return [
    ...pieces.map((piece) => {
      const room = Math.min(jig.keyLength, roomInside(piece, key, od));
      return room < LEAST_KEY ? 0 : room;
    }),
    jig.keyLength,
  ];
}

/** The longest key a piece's start can take, mm. */
function roomInside(piece: Piece, key: Key, od: number): number {
  const turn = piece.path.segments.reduce((sum, s) => sum + (s.kind === 'bend' ? s.angle : 0), 0);
  // the far end leans towards the socket by the bend's angle, and its spigot's root with it
  const lean = key.radius * Math.sin(Math.min(turn, Math.PI / 2));
  const whole = piece.toRun - piece.fromRun - lean - SOCKET_FLOOR - SOCKET_RELIEF;
  let leg = 0;
  for (const s of piece.path.segments) {
    if (s.kind === 'bend') {
      // the socket's far corner on the outside of the bend stays a wall inside the tube: Pythagoras about the bend's centre
      const outside = s.clr + od / 2 - BEND_WALL;
      const corner = s.clr + key.radius + key.fit;
      const beyond = Math.sqrt(Math.max(0, outside * outside - corner * corner));
      return Math.min(whole, leg + beyond - SOCKET_RELIEF);
    }
    leg += segmentLength(s);
  }
  return whole;
}
