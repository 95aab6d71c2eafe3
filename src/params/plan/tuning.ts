/** Published rules a primary's length may come from. */
export const LENGTH_RULES = [
  'duration',
  'wave_return',
  'wave_return_second',
  'quarter_wave',
  'quarter_wave_second',
] as const;

/** A published rule for the length of primaries. */
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
  readonly tailpipe: {
    /** Length, mm. */
    readonly length: number;
    /** Bore, mm. */
    readonly bore: number;
  } | null;
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
