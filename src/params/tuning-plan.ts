/** Published rules a primary's length may come from. */
export const LENGTH_RULES = [
  'duration',
  'wave_return',
  'wave_return_second',
  'quarter_wave',
  'quarter_wave_second',
] as const;

export type LengthRuleName = (typeof LENGTH_RULES)[number];

/** What tuning takes for granted, and what is behind the header. */
export interface TuningPlan {
  /** Gives the length where `runners.length` is tuned. */
  readonly rule: LengthRuleName;
  /** Engine speed the rules are asked for, rev/min; null for that of peak power. */
  readonly rpm: number | null;
  /** Mean of the gas in the primaries, K. */
  readonly gasTemperature: number;
  /** Roughness of the header's tubes, mm. */
  readonly roughness: number;
  /** Pipe behind the last collector's outlet, mm; null for none: the outlet is open to the air. */
  readonly tailpipe: { readonly length: number; readonly bore: number } | null;
  /** Null without a turbine. */
  readonly turbine: TurbinePlan | null;
}

/** A turbine as a nozzle. */
export interface TurbinePlan {
  /** Effective area of all its inlets together, mm2. */
  readonly area: number;
  /** Behind it, absolute, Pa. */
  readonly backPressure: number;
}

/** The manifold the builder has, as the gas sees it: mm, mm2, mm3, rad. */
export interface ExistingManifold {
  readonly name: string;
  readonly material: string;
  readonly wall: number;
  readonly roughness: number;
  readonly doubleWall: boolean;
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
