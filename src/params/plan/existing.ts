/** The manifold the builder has, as the gas sees it: mm, mm2, mm3, rad. */
export interface ExistingManifold {
  readonly name: string;
  readonly material: string;
  readonly wall: number;
  readonly roughness: number;
  /** Part of the heat loss of a bare wall: 1 for a bare wall. */
  readonly heatShare: number;
  /** One from every cylinder and one from every collector. */
  readonly pipes: readonly ExistingPipe[];
  readonly collectors: readonly { readonly name: string; readonly volume: number }[];
}

export interface ExistingPipe {
  /** A cylinder number, or an index into the collectors. */
  readonly from: { readonly cylinder: number } | { readonly collector: number };
  /** An index into the collectors; null where it ends. */
  readonly into: number | null;
  readonly length: number;
  /** Straight lines of diameter between, from 0 to `length`. */
  readonly sections: readonly { readonly at: number; readonly area: number }[];
  readonly bends: readonly ExistingBend[];
}

export interface ExistingBend {
  /** Running length at which it begins. */
  readonly at: number;
  readonly angle: number;
  readonly insideRadius: number;
}
