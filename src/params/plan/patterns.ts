import type { Vec2 } from '../../geometry/vec2.js';

/** How flat developments are laid out, and for which pieces beside the header's own. */
export interface PatternPlan {
  /** Side of the tube the paper lies on. */
  readonly wrap: 'outside' | 'inside';
  /** Strip beyond once round that is glued under the other end, mm. */
  readonly tab: number;
  /** Thickness of the paper, mm. */
  readonly paper: number;
  /** Unit that what is written on them says lengths in: the plan's. */
  readonly units: 'mm' | 'in';
  /** Patterns of pieces beside the header's own. */
  readonly extra: readonly FabricatedPiece[];
}

/** What every piece with a pattern has. */
interface Fabricated {
  /** As the plan calls it. */
  readonly name: string;
  /** Pieces to make. */
  readonly count: number;
}

/** Sizes of a sheet piece are those of its outside, inside or middle face; all mm. */
export interface SheetPiece extends Fabricated {
  /** Which face the sizes are of. */
  readonly measured: 'outside' | 'inside' | 'middle';
  /** Thickness of the sheet. */
  readonly thickness: number;
  /** As the plan names it. */
  readonly material: string;
  /** From end to end along the axis. */
  readonly height: number;
}

/** A piece cut from tube, mm. */
export interface TubePiece extends Fabricated {
  /** Outside diameter. */
  readonly od: number;
  /** Wall. */
  readonly wall: number;
}

/** A piece the builder wants a pattern for; mm, rad. */
export type FabricatedPiece =
  | (SheetPiece & {
      readonly kind: 'frustum';
      /** Diameter of one end. */
      readonly from: number;
      /** Diameter of the other end. */
      readonly to: number;
    })
  /** Parallel circles whose centres stand apart by `offset`. */
  | (SheetPiece & {
      readonly kind: 'eccentric';
      /** Diameter of one end. */
      readonly from: number;
      /** Diameter of the other end. */
      readonly to: number;
      /** How far the ends' centres stand apart. */
      readonly offset: number;
    })
  | (SheetPiece & {
      readonly kind: 'square_to_round';
      /** Width of the rectangle. */
      readonly width: number;
      /** Depth of the rectangle. */
      readonly depth: number;
      /** Radius of its corners. */
      readonly cornerRadius: number;
      /** Diameter of the round end. */
      readonly diameter: number;
      /** Of the circle's centre from the rectangle's. */
      readonly offset: Vec2;
    })
  /** A tube cut by one plane, `angle` from square across. */
  | (TubePiece & {
      readonly kind: 'mitre';
      /** From square across, rad. */
      readonly angle: number;
    })
  | (TubePiece & {
      readonly kind: 'pie_cut';
      /** Centreline radius. */
      readonly clr: number;
      /** Angle of the whole bend, rad. */
      readonly turn: number;
      /** Number of joints. */
      readonly joints: number;
    })
  /** A branch set on a host: axes `angle` apart, a quarter turn is square, and `offset` past each other. */
  | (TubePiece & {
      readonly kind: 'saddle';
      /** Outside diameter of the host. */
      readonly hostOd: number;
      /** Wall of the host. */
      readonly hostWall: number;
      /** Between the axes, rad. */
      readonly angle: number;
      /** Least distance of the axes. */
      readonly offset: number;
    });
