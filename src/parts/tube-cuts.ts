import type { CutPiece } from './cut-list.js';
import type { Joint } from './joint.js';

/** One tube as it is cut and put together, mm. */
export interface TubeCuts {
  /** The tube's id: cylinder number, or the collector a secondary comes from. */
  readonly tube: string;
  /** 'cylinder 2'. */
  readonly name: string;
  readonly pieces: readonly CutPiece[];
  /** One more than pieces: from where the tube starts to the collector inlet. */
  readonly joints: readonly Joint[];
  /** From the head face to where the first piece starts; 0 for a secondary. */
  readonly start: number;
  /** `start`, the pieces as cut, and what gaps less shrinkage add at the butt joints. */
  readonly total: number;
  /** Centreline length of the route. */
  readonly length: number;
  readonly target: number;
}
