import * as z from 'zod';
import { rectangleOutline } from '../../geometry/outline/make.js';
import { sizeWords } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';
import { LARGEST_PORT, type PortShape, rotationField, snapTo, turned, turnWords } from './port-shape.js';

/** An oval as ports have it: two half circles of the smaller dimension joined by two straights. */
export const oval = (lengths: Lengths) =>
  z
    .strictObject({
      kind: z.literal('oval'),
      width: lengths.positive('Overall width, along x', LARGEST_PORT),
      height: lengths.positive('Overall height, along y', LARGEST_PORT),
      rotation: rotationField(),
    })
    .describe('Two half circles joined by straights.')
    .transform(({ width, height: given, rotation }): PortShape => {
      const height = snapTo(given, width);
      return {
        outline: turned(rectangleOutline(width, height, Math.min(width, height) / 2), rotation),
        words: `oval ${sizeWords([width, height], lengths.unit)}${turnWords(rotation)}`,
      };
    });
