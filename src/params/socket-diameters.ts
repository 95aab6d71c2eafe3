import type { BoltThread } from './bolt-holes.js';
import { millimetres } from './units.js';

/** Width across flats of a bolt's head or nut, mm: metric ISO 4032 and ISO 4014, inch from memory. */
const ACROSS_FLATS: Readonly<Record<BoltThread, number>> = {
  M6: 10,
  M8: 13,
  M10: 16,
  M12: 18,
  '5/16': millimetres(1 / 2, 'in'),
  '3/8': millimetres(9 / 16, 'in'),
  '7/16': millimetres(5 / 8, 'in'),
};

/**
 * Outside diameter of the socket that turns a bolt, mm: 1.25 times the width across flats and 3 mm more, as ISO 2725-1 has it for a
 * 12.5 mm drive. From memory, low confidence: measure your socket, and give it as `socket` on the bolt.
 */
export const socketDiameter = (thread: BoltThread): number => 1.25 * ACROSS_FLATS[thread] + 3;
