import { BOLT_HEADS } from './bolt-heads.js';
import type { BoltThread } from './bolt-holes.js';

/**
 * Outside diameter of the socket that turns a bolt, mm: 1.25 times the width across flats and 3 mm more, as ISO 2725-1 has it for a
 * 12.5 mm drive. From memory, low confidence: measure your socket, and give it as `socket` on the bolt.
 */
export const socketDiameter = (thread: BoltThread): number => 1.25 * BOLT_HEADS[thread].flats + 3;
