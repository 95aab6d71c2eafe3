/**
 * A corner of a closed outline and the side that leaves it. Bulge = tan(included angle / 4) of the arc to the next vertex:
 * positive turns counter-clockwise, 0 is a line, 1 a half circle.
 */
export interface OutlineVertex {
  /** To the right, mm. */
  readonly x: number;
  /** Up, mm. */
  readonly y: number;
  /** Of the side to the next vertex: tan of a quarter of its arc, positive counter-clockwise, 0 for a line. */
  readonly bulge: number;
}

/** A closed outline of lines and arcs in mm; the last side returns to the first vertex. Counter-clockwise has positive area. */
export interface Outline {
  /** Corners in order; the last side leads back to the first. */
  readonly vertices: readonly OutlineVertex[];
}
