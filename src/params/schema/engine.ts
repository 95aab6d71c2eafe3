import * as z from 'zod';
import { radians } from '../../geometry/angle.js';
import { expected } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';
import { angleField, countField, degreesField, numberField } from '../fields/number-field.js';
import { MOST_CYLINDERS } from '../limits.js';

const LAYOUTS = ['single', 'inline', 'vee', 'flat'] as const;

/** Least and most exhaust duration taken for a slip of the pen, rad. */
const DURATION = [radians(150), radians(420)] as const;

/** `engine`: what fires when, and the numbers tuning needs. */
export function engineSchema(lengths: Lengths) {
  return z
    .strictObject({
      cylinders: countField('Number of cylinders of the engine', 1, MOST_CYLINDERS),
      layout: z.enum(LAYOUTS).describe('single, inline, vee or flat'),
      firing_order: z
        .array(countField('Cylinder', 1, MOST_CYLINDERS))
        .max(MOST_CYLINDERS)
        .describe('Every cylinder once, in the order they fire, such as [1, 3, 4, 2]'),
      bore: lengths.positive('Cylinder bore', { max: 500 }),
      stroke: lengths.positive('Piston stroke', { max: 500 }),
      bank_angle: degreesField('Angle between the banks: required for vee, else left out', 1, 179).optional(),
      compression_ratio: numberField('Compression ratio, such as 10.5 for 10.5:1', 3, 30).optional(),
      cam: camSchema(lengths).optional(),
      rpm: rpmSchema().optional(),
    })
    .superRefine((engine, context) => {
      const fault = (field: string, message: string) => {
        context.addIssue({ code: 'custom', path: [field], message, input: engine });
      };
      const { cylinders, firing_order: order } = engine;
      if (order.length !== cylinders || new Set(order).size !== cylinders || order.some((c) => c > cylinders)) {
        fault('firing_order', expected(`every cylinder from 1 to ${cylinders} once`, order));
      }
      if (engine.layout === 'single' && cylinders !== 1) {
        fault('cylinders', `expected 1 for the layout single, found ${cylinders}; take inline, vee or flat`);
      }
      if (engine.layout === 'vee' && engine.bank_angle === undefined) {
        fault('bank_angle', 'missing; a vee engine needs the angle between its banks in degrees, such as 90');
      }
      if (engine.layout !== 'vee' && engine.bank_angle !== undefined) {
        fault('bank_angle', `only a vee engine has a bank angle; leave it out for the layout ${engine.layout}`);
      }
      if ((engine.layout === 'vee' || engine.layout === 'flat') && cylinders < 2) {
        fault('cylinders', expected(`2 or more cylinders for the layout ${engine.layout}`, cylinders));
      }
    })
    .describe('The engine: what fires when, and the numbers tuning needs.');
}

function camSchema(lengths: Lengths) {
  return z
    .strictObject({
      exhaust_opens_bbdc: angleField('Exhaust valve opens before bottom dead centre', -20, 150),
      exhaust_closes_atdc: angleField('Exhaust valve closes after top dead centre', -60, 120),
      intake_opens_btdc: angleField('Intake valve opens before top dead centre', -60, 120),
      intake_closes_abdc: angleField('Intake valve closes after bottom dead centre', -20, 150),
      exhaust_lift: lengths.positive('Exhaust valve lift', { max: 50 }).optional(),
    })
    .superRefine((cam, context) => {
      const [least, most] = DURATION;
      const check = (field: string, valve: string, open: number, close: number) => {
        const duration = open + Math.PI + close;
        if (duration >= least && duration <= most) return;
        const deg = Math.round((duration * 180) / Math.PI);
        const message = `the ${valve} valve would be open for ${deg} degrees of crank; expected 150 to 420`;
        context.addIssue({ code: 'custom', path: [field], message, input: cam });
      };
      check('exhaust_opens_bbdc', 'exhaust', cam.exhaust_opens_bbdc, cam.exhaust_closes_atdc);
      check('intake_opens_btdc', 'intake', cam.intake_opens_btdc, cam.intake_closes_abdc);
    })
    .describe('Valve events in crank degrees, each counted from its dead centre.');
}

function rpmSchema() {
  return z
    .strictObject({
      power: numberField('Engine speed of peak power, rev/min', 300, 30000),
      limit: numberField('Highest engine speed, rev/min', 300, 30000),
    })
    .superRefine((rpm, context) => {
      if (rpm.limit >= rpm.power) return;
      const message = expected(`a limit of at least the speed of peak power (${rpm.power})`, rpm.limit);
      context.addIssue({ code: 'custom', path: ['limit'], message, input: rpm });
    })
    .describe('Engine speeds, rev/min.');
}
