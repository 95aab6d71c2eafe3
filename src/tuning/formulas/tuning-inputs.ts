import { degrees } from '../../geometry/angle.js';
import { outlineArea } from '../../geometry/outline/measure.js';
import type { Plan } from '../../params/plan.js';
import { BURNED, soundSpeed } from '../gas/gas.js';

/** What the published rules ask of an engine: crank degrees, mm, mm2, mm3, K, m/s, rev/min. */
export interface TuningInputs {
  /** Engine speed the length is for, rev/min. */
  readonly rpm: number;
  /** Engine speed the steps are meant to reach: the limit. */
  readonly rpmLimit: number;
  /** Exhaust valve opens so many degrees before bottom dead centre. */
  readonly exhaustOpens: number;
  /** From exhaust opening to the end of the exhaust stroke: 180 degrees and `exhaustOpens`. */
  readonly exhaustPeriod: number;
  /** Middle of the overlap, degrees after gas-exchange top dead centre. */
  readonly overlapMiddle: number;
  /** From intake opening to exhaust closing; below zero the valves do not overlap. */
  readonly overlap: number;
  /** Cylinder bore, mm. */
  readonly bore: number;
  /** Stroke, mm. */
  readonly stroke: number;
  /** Swept by one piston. */
  readonly cylinder: number;
  /** Of the port inside the head, mean of all ports. */
  readonly portLength: number;
  /** Of the port on the head face, across its axis, mean of all ports. */
  readonly portArea: number;
  /** Bore of the primary at the head. */
  readonly tubeBore: number;
  /** Mean of the gas in the primaries. */
  readonly gasTemperature: number;
  /** Speed of sound in the hot gas, m/s. */
  readonly soundSpeed: number;
}

export type InputsFound =
  | { readonly ok: true; readonly inputs: TuningInputs }
  /** Fields of the plan that are missing, and why each is needed. */
  | { readonly ok: false; readonly missing: readonly MissingField[] };

export interface MissingField {
  readonly field: string;
  readonly why: string;
}

/** The numbers of a plan that the rules reckon with, or the fields it lacks. */
export function tuningInputs(plan: Plan): InputsFound {
  const { engine, ports, tube, tuning } = plan;
  const missing = missingFields(plan);
  if (missing.length > 0) return { ok: false, missing };
  const { cam, rpm, bore, stroke } = engine;
  const opens = degrees(cam!.exhaustOpensBeforeBdc);
  const [closes, intake] = [degrees(cam!.exhaustClosesAfterTdc), degrees(cam!.intakeOpensBeforeTdc)];
  const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
  return {
    ok: true,
    inputs: {
      rpm: tuning.rpm ?? rpm!.power,
      rpmLimit: rpm?.limit ?? tuning.rpm!,
      exhaustOpens: opens,
      exhaustPeriod: 180 + opens,
      overlapMiddle: (closes - intake) / 2,
      overlap: closes + intake,
      bore,
      stroke,
      cylinder: (Math.PI / 4) * bore * bore * stroke,
      portLength: mean(ports.map((p) => p.lengthInHead!)),
      portArea: mean(ports.map((p) => outlineArea(p.outline) * acrossAxis(plan, p.head, p.frame.z))),
      tubeBore: tube.od - 2 * tube.wall,
      gasTemperature: tuning.gasTemperature,
      soundSpeed: soundSpeed(BURNED, tuning.gasTemperature),
    },
  };
}

/** Part of an area on the head face that the gas sees along the port's axis. */
const acrossAxis = (plan: Plan, head: number, axis: readonly [number, number, number]): number => {
  const { z } = plan.heads[head]!.frame;
  return z[0] * axis[0] + z[1] * axis[1] + z[2] * axis[2];
};

function missingFields({ engine, ports, tuning }: Plan): MissingField[] {
  const without = ports.filter((p) => p.lengthInHead === null).map((p) => p.cylinder);
  return [
    ...(engine.cam === null ? [{ field: 'engine.cam', why: 'every rule counts from the opening of the valves' }] : []),
    ...(engine.rpm === null && tuning.rpm === null
      ? [{ field: 'engine.rpm', why: 'a length is tuned to an engine speed (or give tuning.rpm)' }]
      : []),
    ...(without.length > 0
      ? [
          {
            field: 'length_in_head',
            why: `the rules count from the valve, the plan from the head face: the port of cylinder ${without.join(', ')} has none`,
          },
        ]
      : []),
  ];
}
