/** An engine as the gas sees it. SI units (m, m2, Pa, K, J); crank angles in degrees after firing top dead centre. */
export interface GasEngine {
  readonly bore: number;
  readonly stroke: number;
  /** Length of the connecting rod over the stroke. */
  readonly rodRatio: number;
  readonly compressionRatio: number;
  /** Crank degree at which every cylinder fires, counted from the first that does. */
  readonly firing: readonly { readonly cylinder: number; readonly at: number }[];
  readonly exhaust: PoppetValves;
  readonly intake: PoppetValves;
  /** Gas at rest before the intake valves. */
  readonly intakePressure: number;
  readonly intakeTemperature: number;
  readonly closedCycle: ClosedCycleRule;
  /** Of piston, head and liner. */
  readonly wallTemperature: number;
  /** What was taken because the plan does not say, one sentence each. */
  readonly assumptions: readonly string[];
}

/** The valves of one kind of one cylinder. */
export interface PoppetValves {
  readonly count: number;
  /** Diameter of the head of one. */
  readonly diameter: number;
  readonly lift: number;
  readonly opens: number;
  readonly closes: number;
  /** Flow through the geometric area over that of an ideal nozzle. */
  readonly discharge: number;
}

/** The part of the cycle with both valves shut, as a simple cycle: two polytropes and burning at top dead centre. */
export interface ClosedCycleRule {
  readonly compression: number;
  readonly expansion: number;
  /** What burning adds to the temperature of a charge without residuals, K. */
  readonly rise: number;
}

interface Range {
  readonly of: (e: GasEngine) => number;
  readonly from: number;
  readonly to: number;
  readonly unit: string;
}

/** What an engine can be; beyond it a number is a slip of the pen or of the unit. */
const RANGES: Readonly<Record<string, Range>> = {
  bore: { of: (e) => e.bore, from: 0.02, to: 0.5, unit: 'm' },
  stroke: { of: (e) => e.stroke, from: 0.02, to: 0.5, unit: 'm' },
  'rod length over stroke': { of: (e) => e.rodRatio, from: 1.1, to: 4, unit: '' },
  'compression ratio': { of: (e) => e.compressionRatio, from: 4, to: 25, unit: '' },
  'exhaust valve opening': { of: (e) => e.exhaust.opens, from: 30, to: 200, unit: 'deg after firing TDC' },
  'exhaust valve closing': { of: (e) => e.exhaust.closes, from: 300, to: 480, unit: 'deg after firing TDC' },
  'intake valve opening': { of: (e) => e.intake.opens, from: 240, to: 420, unit: 'deg after firing TDC' },
  'intake valve closing': { of: (e) => e.intake.closes, from: 520, to: 690, unit: 'deg after firing TDC' },
  'exhaust valve lift': { of: (e) => e.exhaust.lift, from: 5e-4, to: 0.05, unit: 'm' },
  'intake valve lift': { of: (e) => e.intake.lift, from: 5e-4, to: 0.05, unit: 'm' },
  'exhaust valve diameter over bore': { of: (e) => e.exhaust.diameter / e.bore, from: 0.1, to: 0.7, unit: '' },
  'intake valve diameter over bore': { of: (e) => e.intake.diameter / e.bore, from: 0.1, to: 0.7, unit: '' },
  'exhaust discharge coefficient': { of: (e) => e.exhaust.discharge, from: 0.2, to: 1, unit: '' },
  'intake discharge coefficient': { of: (e) => e.intake.discharge, from: 0.2, to: 1, unit: '' },
  'intake pressure': { of: (e) => e.intakePressure, from: 2e4, to: 5e5, unit: 'Pa' },
  'intake temperature': { of: (e) => e.intakeTemperature, from: 230, to: 450, unit: 'K' },
  'temperature of the cylinder walls': { of: (e) => e.wallTemperature, from: 300, to: 700, unit: 'K' },
  'compression exponent': { of: (e) => e.closedCycle.compression, from: 1.2, to: 1.4, unit: '' },
  'expansion exponent': { of: (e) => e.closedCycle.expansion, from: 1.2, to: 1.4, unit: '' },
  'temperature rise of burning': { of: (e) => e.closedCycle.rise, from: 300, to: 3000, unit: 'K' },
};

/** The engine as it stands. Throws RangeError, naming what is unphysical, what was found and the range. */
export function checkedEngine(engine: GasEngine): GasEngine {
  for (const [name, { of, from, to, unit }] of Object.entries(RANGES)) {
    checkRange(name, of(engine), from, to, unit);
  }
  const angles = engine.firing.map((f) => f.at);
  if (angles.length === 0 || angles.some((a) => !(a >= 0 && a < 720)) || new Set(angles).size < angles.length) {
    throw new RangeError(`firing angles: ${angles.join(', ')} deg; expected different ones from 0 to below 720`);
  }
  return engine;
}

/** Throws RangeError when a number lies outside what physics and practice know. */
export function checkRange(name: string, value: number, from: number, to: number, unit: string): void {
  if (value >= from && value <= to) return;
  const of = unit === '' ? '' : ` ${unit}`;
  throw new RangeError(`${name}: found ${value}${of}; expected ${from} to ${to}${of}`);
}

/** Swept volume of one cylinder, m3. */
export const sweptVolume = ({ bore, stroke }: GasEngine): number => (Math.PI / 4) * bore ** 2 * stroke;
