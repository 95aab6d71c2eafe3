import type { Vec3 } from '../../geometry/vec3.js';

/** Two opposite corners as the lowest and the highest. */
export function inOrder(a: Vec3, b: Vec3): { readonly from: Vec3; readonly to: Vec3 } {
  return {
    from: [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.min(a[2], b[2])],
    to: [Math.max(a[0], b[0]), Math.max(a[1], b[1]), Math.max(a[2], b[2])],
  };
}
