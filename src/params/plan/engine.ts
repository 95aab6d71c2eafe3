/** How the cylinders stand. */
export type EngineLayout = 'single' | 'inline' | 'vee' | 'flat';

/** What tuning and the firing order need to know of the engine. */
export interface Engine {
  /** Number of cylinders, those without a port in the plan included. */
  readonly cylinders: number;
  /** How the cylinders stand. */
  readonly layout: EngineLayout;
  /** Cylinder numbers in the order they fire. */
  readonly firingOrder: readonly number[];
  /** mm. */
  readonly bore: number;
  /** mm. */
  readonly stroke: number;
  /** Angle between the banks, rad; 0 for one bank. */
  readonly bankAngle: number;
  /** Null when not given. */
  readonly compressionRatio: number | null;
  /** Null when not given. */
  readonly cam: CamTiming | null;
  /** Engine speeds, rev/min; null when not given. */
  readonly rpm: {
    /** Speed of the highest power, rev/min. */
    readonly power: number;
    /** Highest speed, rev/min. */
    readonly limit: number;
  } | null;
}

/** Valve events in crank radians, each counted the usual way from its dead centre. */
export interface CamTiming {
  /** Exhaust valve opens before bottom dead centre, rad. */
  readonly exhaustOpensBeforeBdc: number;
  /** Exhaust valve closes after top dead centre, rad. */
  readonly exhaustClosesAfterTdc: number;
  /** Intake valve opens before top dead centre, rad. */
  readonly intakeOpensBeforeTdc: number;
  /** Intake valve closes after bottom dead centre, rad. */
  readonly intakeClosesAfterBdc: number;
  /** mm, null when not given. */
  readonly exhaustLift: number | null;
}
