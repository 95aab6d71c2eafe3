/**
 * What an unsteady calculation of an exhaust gives. SI units; crank angles in degrees after the cylinder's own firing top dead centre,
 * 0 to 720: exhaust bottom dead centre is 180, gas-exchange top dead centre is 360.
 */
export interface SweepResult {
  /** Name of the exhaust system. */
  readonly system: string;
  /** One sentence each: what was taken because nobody measured it, and what the calculation leaves out. */
  readonly assumptions: readonly string[];
  /** What these figures are for, and who decides. */
  readonly caution: string;
  /** The same for every cylinder. */
  readonly events: ValveEvents;
  /** One for every engine speed, lowest first. */
  readonly points: readonly RpmResult[];
}

/** Crank degrees after firing top dead centre. The overlap runs from `intakeOpens` to `exhaustCloses`; none when it is the later of the two. */
export interface ValveEvents {
  /** Exhaust valve opens. */
  readonly exhaustOpens: number;
  /** Exhaust valve closes. */
  readonly exhaustCloses: number;
  /** Intake valve opens. */
  readonly intakeOpens: number;
  /** Intake valve closes. */
  readonly intakeCloses: number;
}

/** The periodic state at one engine speed. */
export interface RpmResult {
  /** Engine speed, rev/min. */
  readonly rpm: number;
  /** By cylinder number; only those that the system serves. */
  readonly cylinders: readonly CylinderResult[];
  /** Where pipes end, in the order of the system's pipes. */
  readonly outlets: readonly OutletResult[];
  /** How near to periodic the last cycle is. */
  readonly convergence: Convergence;
}

/** One cylinder over its last cycle. */
export interface CylinderResult {
  /** Cylinder number, from 1. */
  readonly cylinder: number;
  /** Pressure in the exhaust just behind the valve, Pa, at every whole crank degree: 720 values. */
  readonly valvePressure: Float64Array;
  /** Pressure in the cylinder, Pa, at every whole crank degree. */
  readonly cylinderPressure: Float64Array;
  /**
   * Mean pressure behind the exhaust valve minus that of the intake over the overlap, Pa: below zero the exhaust draws fresh gas in,
   * above zero it pushes burned gas back. Null without overlap.
   */
  readonly overlapDifference: number | null;
  /** What the piston spends on the gas from exhaust bottom dead centre to the next, J a cycle; the less the better. */
  readonly pumpingWork: number;
  /** Work of the gas on the piston over the whole cycle, J: open part calculated, closed part by the stated simple cycle. For comparing only. */
  readonly indicatedWork: number;
  /** Crank degree of the lowest pressure behind the valve, after the blow-down's peak and up to 60 degrees after the valve closes. */
  readonly rarefactionAt: number;
  /** That pressure minus the mean pressure behind the valve, Pa: below zero. */
  readonly rarefactionDepth: number;
  /** Mass through the exhaust valve in a cycle, what flowed back taken off, kg. */
  readonly massExhausted: number;
  /** Fresh gas caught when the intake valve closes, kg. */
  readonly freshCharge: number;
  /** That mass over what fills the swept volume at the intake's pressure and temperature. */
  readonly chargingEfficiency: number;
  /** Burned gas left over from the cycle before, as a fraction of the mass caught. An estimate. */
  readonly residualFraction: number;
  /** Energy of the gas through the valve over its mass, as a temperature, K. */
  readonly exhaustTemperature: number;
}

/** The end of a pipe: open air or one inlet of a turbine. */
export interface OutletResult {
  /** Name of the pipe. */
  readonly pipe: string;
  /** kg a cycle. */
  readonly mass: number;
  /** Work that an ideal turbine would take from the gas down to the pressure beyond, J a cycle; null at an open end. */
  readonly pulseEnergy: number | null;
  /** The same for a steady flow of the same mass and enthalpy at the mean pressure, J a cycle: what pulses add is the difference. Null at an open end. */
  readonly steadyEnergy: number | null;
  /** Pressure before the end at every whole crank degree of the first firing cylinder, Pa. */
  readonly pressure: Float64Array;
}

/** How near to periodic the last cycle is. */
export interface Convergence {
  /** True when the change is below the limit. */
  readonly converged: boolean;
  /** Cycles run, the last included. */
  readonly cycles: number;
  /** Largest change from the cycle before to the last, as a fraction: of caught and exhausted mass, of the pressure behind any valve. */
  readonly change: number;
  /** The change at which a calculation stops. */
  readonly limit: number;
  /** Cells of all pipes together. */
  readonly cells: number;
  /** Time steps of the last cycle. */
  readonly steps: number;
  /** Mass that came and went unaccounted over the last cycle, over what is in the system: rounding only. */
  readonly massError: number;
}
