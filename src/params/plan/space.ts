import type { Frame } from '../../geometry/frame.js';
import type { Mesh } from '../../geometry/mesh/mesh.js';
import type { Vec3 } from '../../geometry/vec3.js';

/** What every kept-out space says, whatever its shape. */
export interface KeepOutCommon {
  /** As the plan calls it. */
  readonly name: string;
  /** Least gap from a tube's skin, mm; for what must stay cool at least the plan's hot-tube distance. */
  readonly clearance: number;
  /** True for what must stay cool: hoses, wiring, starter, master cylinder. */
  readonly heat: boolean;
}

/** Space no tube may enter, in the world, mm. */
export type KeepOut =
  /** From the lowest corner to the highest. */
  | (KeepOutCommon & {
      readonly kind: 'box';
      /** Lowest corner. */
      readonly from: Vec3;
      /** Highest corner. */
      readonly to: Vec3;
    })
  /** Between the centres of its end faces. */
  | (KeepOutCommon & {
      readonly kind: 'cylinder';
      /** Centre of one end face. */
      readonly from: Vec3;
      /** Centre of the other end face. */
      readonly to: Vec3;
      /** Diameter. */
      readonly diameter: number;
    })
  /** Between the centres of its end spheres. */
  | (KeepOutCommon & {
      readonly kind: 'capsule';
      /** Centre of one end's sphere. */
      readonly from: Vec3;
      /** Centre of the other end's sphere. */
      readonly to: Vec3;
      /** Diameter. */
      readonly diameter: number;
    })
  /** Behind a plane through a point; the unit normal points to the free side. */
  | (KeepOutCommon & {
      readonly kind: 'half-space';
      /** A point of the plane. */
      readonly point: Vec3;
      /** Unit vector towards the free side. */
      readonly normal: Vec3;
    })
  /** A scan; `file` as the plan names it. */
  | (KeepOutCommon & {
      readonly kind: 'mesh';
      /** As the plan names it. */
      readonly file: string;
      /** What the file holds, in the world, mm. */
      readonly mesh: Mesh;
    });

/** A straight cylinder that a tool needs: no tube may enter it. */
export interface Access {
  /** 'plug of cylinder 2', 'bolt 3'. */
  readonly name: string;
  /** Where it begins; z is the way the tool comes out. */
  readonly frame: Frame;
  /** mm. */
  readonly diameter: number;
  /** mm. */
  readonly length: number;
}
