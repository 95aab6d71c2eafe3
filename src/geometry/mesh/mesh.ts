/** An indexed triangle mesh, mm. Corners in counter-clockwise order seen from outside. */
export interface Mesh {
  /** x, y, z of every point in turn. */
  readonly positions: Float64Array;
  /** Three point numbers a triangle. */
  readonly triangles: Uint32Array;
}
