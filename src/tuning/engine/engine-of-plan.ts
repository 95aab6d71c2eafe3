import { degrees } from '../../geometry/angle.js';
import type { Engine } from '../../params/plan.js';
import { checkedEngine, type GasEngine } from './gas-engine.js';

/** What a plan need not say. SI units. Each is named among the assumptions when it is used. */
export interface EngineChoices {
  readonly rodRatio: number;
  readonly compressionRatio: number;
  /** Diameter of one exhaust or intake valve over the bore, and how many of each a cylinder has. */
  readonly exhaustValve: { readonly count: number; readonly overBore: number };
  readonly intakeValve: { readonly count: number; readonly overBore: number };
  /** Lift over diameter where the plan gives no lift. */
  readonly liftOverDiameter: number;
  readonly dischargeExhaust: number;
  readonly dischargeIntake: number;
  readonly intakePressure: number;
  readonly intakeTemperature: number;
}

/**
 * Sizes of valves: J. B. Heywood, Internal Combustion Engine Fundamentals, Table 6.1, wedge or bathtub chamber (from memory); the others
 * are common practice without source.
 */
export const ENGINE_CHOICES: EngineChoices = {
  rodRatio: 1.65,
  compressionRatio: 10,
  exhaustValve: { count: 1, overBore: 0.36 },
  intakeValve: { count: 1, overBore: 0.44 },
  liftOverDiameter: 0.25,
  dischargeExhaust: 0.7,
  dischargeIntake: 0.65,
  intakePressure: 98_000,
  intakeTemperature: 310,
};

/** Wide-open throttle, rich mixture: about three quarters of 2.8 MJ for every kg of charge, at 1.05 kJ/(kg K). */
const CLOSED_CYCLE = { compression: 1.32, expansion: 1.27, rise: 2000 };

const WALL_TEMPERATURE = 450;

/**
 * The plan's engine as the gas sees it. Throws RangeError when the plan has no cam, and for what is unphysical, with the range.
 */
export function gasEngineOf(engine: Engine, given: Partial<EngineChoices> = {}): GasEngine {
  const { cam } = engine;
  if (cam === null) throw new RangeError('engine.cam: missing; the gas calculation needs the valve events');
  const choices = { ...ENGINE_CHOICES, ...given };
  const bore = engine.bore / 1000;
  const exhaustDiameter = choices.exhaustValve.overBore * bore;
  const intakeDiameter = choices.intakeValve.overBore * bore;
  return checkedEngine({
    bore,
    stroke: engine.stroke / 1000,
    rodRatio: choices.rodRatio,
    compressionRatio: engine.compressionRatio ?? choices.compressionRatio,
    firing: firingAngles(engine),
    exhaust: {
      count: choices.exhaustValve.count,
      diameter: exhaustDiameter,
      lift: cam.exhaustLift === null ? choices.liftOverDiameter * exhaustDiameter : cam.exhaustLift / 1000,
      opens: 180 - degrees(cam.exhaustOpensBeforeBdc),
      closes: 360 + degrees(cam.exhaustClosesAfterTdc),
      discharge: choices.dischargeExhaust,
    },
    intake: {
      count: choices.intakeValve.count,
      diameter: intakeDiameter,
      lift: choices.liftOverDiameter * intakeDiameter,
      opens: 360 - degrees(cam.intakeOpensBeforeTdc),
      closes: 540 + degrees(cam.intakeClosesAfterBdc),
      discharge: choices.dischargeIntake,
    },
    intakePressure: choices.intakePressure,
    intakeTemperature: choices.intakeTemperature,
    closedCycle: CLOSED_CYCLE,
    wallTemperature: WALL_TEMPERATURE,
    assumptions: assumptionsOf(engine, choices, given),
  });
}

/** Evenly spaced over two turns; a vee of two on one crankpin fires a bank angle apart from that. */
function firingAngles({ firingOrder, layout, cylinders, bankAngle }: Engine): { cylinder: number; at: number }[] {
  return firingOrder.map((cylinder, i) => {
    if (layout === 'vee' && cylinders === 2 && i === 1) return { cylinder, at: 360 - degrees(bankAngle) };
    return { cylinder, at: (i * 720) / firingOrder.length };
  });
}

function assumptionsOf(engine: Engine, c: EngineChoices, given: Partial<EngineChoices>): string[] {
  const said = (name: keyof EngineChoices): string => (given[name] === undefined ? 'assumed' : 'given');
  const bore = (v: { count: number; overBore: number }): string =>
    `${v.count === 1 ? 'one' : v.count} of ${(v.overBore * engine.bore).toFixed(1)} mm`;
  const lines = [
    `Rod length ${c.rodRatio} times the stroke (${said('rodRatio')}).`,
    `Exhaust valves: ${bore(c.exhaustValve)} (${said('exhaustValve')}); intake valves: ${bore(c.intakeValve)} (${said('intakeValve')}).`,
    `Discharge coefficients of the valves: exhaust ${c.dischargeExhaust}, intake ${c.dischargeIntake} at every lift (common practice, no source).`,
    'Valve lift rises and falls by 3-4-5 polynomials between the events of the plan, which are taken as those of the seat.',
    `Intake valve lift ${c.liftOverDiameter} of its diameter (common practice, no source).`,
    `Intake: gas at rest at ${(c.intakePressure / 1000).toFixed(1)} kPa and ${c.intakeTemperature.toFixed(0)} K; waves in the intake are left out.`,
    `Between intake closing and exhaust opening: polytropes of ${CLOSED_CYCLE.compression} and ${CLOSED_CYCLE.expansion}, and burning at top dead centre that adds ${CLOSED_CYCLE.rise} K to a charge without residuals (full load).`,
    `Heat to the cylinder's walls at ${WALL_TEMPERATURE} K by the gas-exchange form of Woschni's formula.`,
  ];
  if (engine.compressionRatio === null) lines.push(`Compression ratio ${c.compressionRatio} (the plan gives none).`);
  if (engine.cam?.exhaustLift === null)
    lines.push(`Exhaust valve lift ${c.liftOverDiameter} of its diameter (the plan gives none).`);
  lines.push(
    engine.layout === 'vee' && engine.cylinders === 2
      ? 'Both rods on one crankpin: the cylinders fire a bank angle short of a turn apart.'
      : 'The cylinders fire at even intervals.',
  );
  return lines;
}
