/** How the cylinders stand. */
export type EngineLayout = 'single' | 'inline' | 'vee' | 'flat';

/** What tuning and the firing order need to know of the engine. */
export interface Engine {
  readonly cylinders: number;
  readonly layout: EngineLayout;
  readonly firingOrder: readonly number[];
  /** mm. */
  readonly bore: number;
  /** mm. */
  readonly stroke: number;
  /** Angle between the banks, rad; 0 for one bank. */
  readonly bankAngle: number;
  readonly compressionRatio: number | null;
  readonly cam: CamTiming | null;
  readonly rpm: { readonly power: number; readonly limit: number } | null;
}

/** Valve events in crank radians, each counted the usual way from its dead centre. */
export interface CamTiming {
  readonly exhaustOpensBeforeBdc: number;
  readonly exhaustClosesAfterTdc: number;
  readonly intakeOpensBeforeTdc: number;
  readonly intakeClosesAfterBdc: number;
  /** mm, null when not given. */
  readonly exhaustLift: number | null;
}
