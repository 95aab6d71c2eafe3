import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import { areaField } from '../fields/area-field.js';
import type { Lengths } from '../fields/length-field.js';
import { numberField } from '../fields/number-field.js';
import { LENGTH_RULES } from '../plan/tuning.js';

/** `tuning`: which published rule gives the length, at what engine speed and temperature, and what is behind the header. */
export function tuningSchema(lengths: Lengths) {
  const { rule, gas_temperature, roughness } = DEFAULTS.tuning;
  return z
    .strictObject({
      rule: z
        .enum(LENGTH_RULES)
        .default(rule)
        .describe(
          'Rule that gives the length where runners.length is tuned: duration by the exhaust period, wave_return by the front of the first or second rarefaction, quarter_wave as a stopped pipe with its end correction',
        ),
      rpm: numberField('Engine speed to tune for, rev/min; engine.rpm.power when left out', 300, 30000).optional(),
      gas_temperature: numberField('Mean temperature of the gas in the primaries, degrees Celsius', 300, 1000).default(
        gas_temperature,
      ),
      roughness: lengths.atLeastZero("Roughness of the tubes' wall", { max: 1 }).prefault(roughness),
      tailpipe: z
        .strictObject({
          length: lengths.positive("Length from the collector's outlet to the open air or the first box"),
          bore: lengths.positive('Inside diameter', { max: 300 }),
        })
        .optional()
        .describe("Pipe behind every last collector's outlet; open to the air at the outlet when left out."),
      turbine: z
        .strictObject({
          area: areaField(lengths, 'Effective nozzle area of all its inlets together'),
          back_pressure: numberField('Behind the turbine, absolute, kPa', 50, 500).default(
            DEFAULTS.tuning.turbine.back_pressure,
          ),
        })
        .optional()
        .describe('A turbine at the end, as a nozzle; a header with several last collectors feeds a divided housing.'),
    })
    .superRefine((tuning, context) => {
      if (tuning.tailpipe === undefined || tuning.turbine === undefined) return;
      const message = 'with a turbine the way ends at its inlet: leave tailpipe out';
      context.addIssue({ code: 'custom', path: ['tailpipe'], message, input: tuning });
    })
    .prefault({})
    .describe('What tuning takes for granted: rule, engine speed, gas temperature, and what is behind the header.');
}
