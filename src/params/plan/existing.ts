/** The manifold the builder has, as the gas sees it: mm, mm2, mm3, rad. */
export interface ExistingManifold {
  /** As reports call it. */
  readonly name: string;
  /** As the plan names it. */
  readonly material: string;
  /** Wall, mm. */
  readonly wall: number;
  /** Of the wall's inside, mm. */
  readonly roughness: number;
  /** Part of the heat loss of a bare wall: 1 for a bare wall. */
  readonly heatShare: number;
  /** One from every cylinder and one from every collector. */
  readonly pipes: readonly ExistingPipe[];
  /** Where its pipes join. */
  readonly collectors: readonly {
    /** As the plan calls it. */
    readonly name: string;
    /** Volume of the joint, mm3. */
    readonly volume: number;
  }[];
}

/** A pipe of the manifold of today, mm and rad. */
export interface ExistingPipe {
  /** A cylinder number, or an index into the collectors. */
  readonly from:
    | {
        /** Cylinder number, from 1. */
        readonly cylinder: number;
      }
    | {
        /** Index into `ExistingManifold.collectors`. */
        readonly collector: number;
      };
  /** An index into the collectors; null where it ends. */
  readonly into: number | null;
  /** Along its middle. */
  readonly length: number;
  /** Straight lines of diameter between, from 0 to `length`. */
  readonly sections: readonly {
    /** Running length. */
    readonly at: number;
    /** Area of the bore, mm2. */
    readonly area: number;
  }[];
  /** Bends along it. */
  readonly bends: readonly ExistingBend[];
}

/** A bend of such a pipe. */
export interface ExistingBend {
  /** Running length at which it begins. */
  readonly at: number;
  /** Angle. */
  readonly angle: number;
  /** Radius of the inside of the bend. */
  readonly insideRadius: number;
}
