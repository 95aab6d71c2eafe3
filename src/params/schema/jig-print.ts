import * as z from 'zod';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField, countField, numberField } from '../fields/number-field.js';

/** `jig.print`: how the parts are printed, for the estimates and for what is reported of overhangs. */
export function printSchema(lengths: Lengths) {
  const d = DEFAULTS.jig.print;
  return z
    .strictObject({
      walls: countField('Lines of plastic in a wall', 1, 50).default(d.walls),
      line_width: lengths.positive('Width of one line of plastic', { max: 5 }).prefault(d.line_width),
      infill: numberField('Filling of the inside, percent', 0, 100).default(d.infill),
      layer: lengths.positive('Height of one layer', { max: 2 }).prefault(d.layer),
      density: numberField('Density of the plastic, kg/m3', 100, 20_000).default(d.density),
      solid_layers: countField('Solid layers at the bottom and at the top', 0, 50).default(d.solid_layers),
      flow: numberField('Plastic laid down on average in walls and solid layers, mm3/s', 0.01, 1000).default(d.flow),
      infill_flow: numberField('Plastic laid down on average in the filling, mm3/s', 0.01, 1000).default(d.infill_flow),
      layer_time: numberField('Time every layer costs beside its plastic, s', 0, 600).default(d.layer_time),
      overhang: angleField('Lean from upright that prints without support', 0, 90).prefault(d.overhang),
      most_overhang: numberField('Area of a part that may lean out further unremarked, mm2', 0, 1e6).default(
        d.most_overhang,
      ),
      least_foot: numberField('Area a part stands on the bed with to hold, mm2', 0, 1e6).default(d.least_foot),
    })
    .prefault({})
    .describe('How the parts are printed: for the estimates of plastic and time, and for overhangs and feet.');
}
