import type { CutPiece } from '../../parts/tube/cut-list.js';
import type { Joint } from '../../parts/tube/joint.js';
import type { TubeCuts } from '../../parts/tube/tube-cuts.js';

/** A piece as the saw and the bench need it, mm. */
export interface PieceAsCut {
  readonly legBefore: number;
  readonly legAfter: number;
  /** Centreline length with what is allowed for gap and shrinkage. */
  readonly length: number;
  /** The joint where it ends. */
  readonly end: Joint;
}

/** What is cut of a piece. */
export function pieceAsCut(cut: CutPiece, { joints }: TubeCuts): PieceAsCut {
  return {
    legBefore: cut.cutLegBefore,
    legAfter: cut.cutLegAfter,
    length: cut.cutLength,
    end: joints.find((j) => j.before === cut.piece.name)!,
  };
}

/** A piece's letter within its tube: 'C' of '2C' and of 'front-C'. */
export const letterOf = ({ piece }: CutPiece): string => /[A-Z]+$/.exec(piece.name)?.[0] ?? piece.name;

/** A joint's name on drawings: its own where that is short, else its number. */
export const shortJoint = ({ name, number }: Joint): string => (name.length <= 6 ? name : `J${number}`);
