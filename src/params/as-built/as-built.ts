import type { Vec3 } from '../../geometry/vec3.js';
import type { LengthUnit } from '../units.js';

/** Measurements of built tubes as a fabricator took them: validated, millimetres and radians. */
export interface AsBuilt {
  /** Unit the file was written in. */
  readonly units: LengthUnit;
  /** Name of the plan it says it is of; null when it says nothing. */
  readonly plan: string | null;
  readonly tubes: readonly MeasuredTube[];
}

/** One tube with one kind of measurement. */
export interface MeasuredTube {
  /** Null for a secondary. */
  readonly cylinder: number | null;
  /** The collector a secondary comes from; null for a primary. */
  readonly from: string | null;
  readonly measured: Measured;
  /** Where the measurement begins; a primary's flange thickness is added where it begins at the flange's outer face. */
  readonly begins: 'port' | 'flange';
  /** What the length may be off by, plus and minus mm; null for the usual of its kind. */
  readonly uncertainty: number | null;
}

export type Measured =
  /** Centreline by tape or string. */
  | { readonly kind: 'length'; readonly length: number }
  | { readonly kind: 'pieces'; readonly pieces: readonly MeasuredPiece[] }
  /** Two strings on opposite sides of the tube. */
  | { readonly kind: 'string'; readonly inside: number; readonly outside: number }
  /** Water that fills the tube, mm3. */
  | { readonly kind: 'water'; readonly volume: number }
  | {
      readonly kind: 'points';
      readonly by: 'intersection' | 'tangent';
      readonly points: readonly Vec3[];
      /** Radii measured, one for each bend; null for those of the route. */
      readonly clr: readonly number[] | null;
    };

/** A piece as it was cut, mm and rad; what is null was not measured. */
export interface MeasuredPiece {
  /** '2C'. */
  readonly piece: string;
  /** Of a straight piece. */
  readonly length: number | null;
  /** Of a bend: its angle and the straights on it. */
  readonly bend: number | null;
  readonly before: number | null;
  readonly after: number | null;
}
