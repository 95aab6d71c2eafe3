import type { Vec3 } from '../../geometry/vec3.js';

/** A weld round a tube: between two of its pieces, or where it starts or ends. mm and rad. */
export interface Joint {
  /** 'J2.1' is joint 1 of cylinder 2, 'Jfront.0' where the secondary from collector front starts: no text a spreadsheet takes for a date or number. */
  readonly name: string;
  /** The tube, as reports name it. */
  readonly tube: string;
  /** From 0 at the flange or the outlet to the collector inlet. */
  readonly number: number;
  /** What is joined. */
  readonly kind: 'flange' | 'outlet' | 'butt' | 'collector';
  /** Names of the pieces it joins; null where the tube starts or ends. */
  readonly before: string | null;
  /** Piece after it; null at the collector. */
  readonly after: string | null;
  /** Running length along the tube, from the head face or from the outlet. */
  readonly run: number;
  /** Where it stands in the world and the way of the gas. */
  readonly point: Vec3;
  /** The way of the gas, unit vector. */
  readonly direction: Vec3;
  /** Of the larger of the two tubes. */
  readonly od: number;
  /** Wall, mm. */
  readonly wall: number;
  /** Root gap left before welding and what the weld draws together; 0 where the tube starts or ends. */
  readonly gap: number;
  /** How much the weld draws together, mm. */
  readonly shrinkage: number;
  /**
   * Turn from the reference line of the piece before to that of the piece after, right-handed along the gas. The reference line of
   * a bend is the line of its outside; a straight carries on that of the piece before. At joint 0 it is the turn from the head's
   * up (y of the head's frame laid square to the tube), or from the collector's x at an outlet, to the first piece's line. Null at
   * the collector.
   */
  readonly clocking: number | null;
  /** The same as a distance round the outside of the piece after; sign as `clocking`. */
  readonly clockingRound: number | null;
  /** Length of the weld: once round the middle of the wall. */
  readonly weldLength: number;
}
