import * as z from 'zod';
import { unit, type Vec3 } from '../../geometry/vec3.js';
import { expected } from '../faults/wording.js';
import { numberField } from './number-field.js';

const LARGEST_COMPONENT = 1e6;
const SMALLEST_LENGTH = 1e-6;

/** A direction [x, y, z] of any length but zero; gives the unit vector. */
export function directionField(about: string) {
  const component = (axis: string) => numberField(axis, -LARGEST_COMPONENT, LARGEST_COMPONENT);
  return z
    .tuple([component('x'), component('y'), component('z')])
    .transform((v, context): Vec3 => {
      if (Math.hypot(...v) < SMALLEST_LENGTH) {
        context.addIssue({ code: 'custom', message: expected('a direction that is not zero, such as [0, -1, 0]', v) });
        return z.NEVER;
      }
      return unit(v);
    })
    .describe(`${about}. Any length but zero; only the direction counts.`);
}
