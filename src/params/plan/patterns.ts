import type { Vec2 } from '../../geometry/vec2.js';

/** How flat developments are laid out, and for which pieces beside the header's own. */
export interface PatternPlan {
  /** Side of the tube the paper lies on. */
  readonly wrap: 'outside' | 'inside';
  /** Strip beyond once round that is glued under the other end, mm. */
  readonly tab: number;
  /** Thickness of the paper, mm. */
  readonly paper: number;
  readonly extra: readonly FabricatedPiece[];
}

interface Fabricated {
  readonly name: string;
  readonly count: number;
}

/** Sizes of a sheet piece are those of its outside, inside or middle face; all mm. */
interface SheetPiece extends Fabricated {
  readonly measured: 'outside' | 'inside' | 'middle';
  readonly thickness: number;
  readonly material: string;
  readonly height: number;
}

interface TubePiece extends Fabricated {
  readonly od: number;
  readonly wall: number;
}

/** A piece the builder wants a pattern for; mm, rad. */
export type FabricatedPiece =
  | (SheetPiece & { readonly kind: 'frustum'; readonly from: number; readonly to: number })
  /** Parallel circles whose centres stand apart by `offset`. */
  | (SheetPiece & { readonly kind: 'eccentric'; readonly from: number; readonly to: number; readonly offset: number })
  | (SheetPiece & {
      readonly kind: 'square_to_round';
      readonly width: number;
      readonly depth: number;
      readonly cornerRadius: number;
      readonly diameter: number;
      /** Of the circle's centre from the rectangle's. */
      readonly offset: Vec2;
    })
  /** A tube cut by one plane, `angle` from square across. */
  | (TubePiece & { readonly kind: 'mitre'; readonly angle: number })
  | (TubePiece & {
      readonly kind: 'pie_cut';
      readonly clr: number;
      readonly turn: number;
      readonly joints: number;
    })
  /** A branch set on a host: axes `angle` apart, a quarter turn is square, and `offset` past each other. */
  | (TubePiece & {
      readonly kind: 'saddle';
      readonly hostOd: number;
      readonly hostWall: number;
      readonly angle: number;
      readonly offset: number;
    });
