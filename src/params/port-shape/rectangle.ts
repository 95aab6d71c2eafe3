import * as z from 'zod';
import { rectangleOutline } from '../../geometry/outline/make.js';
import { DEFAULTS } from '../defaults.js';
import { lengthWords, sizeWords } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';
import { LARGEST_PORT, type PortShape, rotationField, snapTo, turned, turnWords } from './port-shape.js';

/** A rectangle with rounded corners. */
export const rectangle = (lengths: Lengths) =>
  z
    .strictObject({
      kind: z.literal('rectangle'),
      width: lengths.positive('Width, along x', LARGEST_PORT),
      height: lengths.positive('Height, along y', LARGEST_PORT),
      corner_radius: lengths.atLeastZero('Radius of the corners', LARGEST_PORT).prefault(DEFAULTS.port.corner_radius),
      rotation: rotationField(),
    })
    .describe('A rectangle with rounded corners.')
    .transform(({ width, height: given, corner_radius, rotation }, context): PortShape => {
      const height = snapTo(given, width);
      const largest = Math.min(width, height) / 2;
      const radius = snapTo(snapTo(corner_radius, 0), largest);
      if (radius > largest) {
        const message = `expected a corner radius of at most ${lengthWords(largest, lengths.unit)}, half the smaller side, found ${lengthWords(radius, lengths.unit)}`;
        context.addIssue({ code: 'custom', path: ['corner_radius'], message });
        return z.NEVER;
      }
      return {
        outline: turned(rectangleOutline(width, height, radius), rotation),
        words: `rectangle ${sizeWords([width, height], lengths.unit)}, corners ${lengthWords(radius, lengths.unit)}${turnWords(rotation)}`,
      };
    });
