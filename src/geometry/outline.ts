/**
 * A corner of a closed outline and the side that leaves it. Bulge = tan(included angle / 4) of the arc to the next vertex:
 * positive turns counter-clockwise, 0 is a line, 1 a half circle.
 */
export interface OutlineVertex {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
}

/** A closed outline of lines and arcs in mm; the last side returns to the first vertex. Counter-clockwise has positive area. */
export interface Outline {
  readonly vertices: readonly OutlineVertex[];
}
