import * as z from 'zod';
import { circleOutline } from '../../geometry/outline/make.js';
import { lengthWords } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';
import { LARGEST_PORT, type PortShape } from './port-shape.js';

/** A circle. */
export const round = (lengths: Lengths) =>
  z
    .strictObject({
      kind: z.literal('round'),
      diameter: lengths.positive('Diameter of the port', LARGEST_PORT),
    })
    .describe('A round port.')
    .transform(
      ({ diameter }): PortShape => ({
        outline: circleOutline([0, 0], diameter),
        words: `round ${lengthWords(diameter, lengths.unit)}`,
      }),
    );
