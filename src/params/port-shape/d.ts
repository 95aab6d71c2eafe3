import * as z from 'zod';
import { QUARTER_BULGE } from '../../geometry/outline/make.js';
import type { Outline, OutlineVertex } from '../../geometry/outline/outline.js';
import { JOIN_TOLERANCE } from '../../geometry/tolerance.js';
import { distance2 } from '../../geometry/vec2.js';
import { DEFAULTS } from '../defaults.js';
import { lengthWords, sizeWords } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';
import { LARGEST_PORT, type PortShape, rotationField, snapTo, turned, turnWords } from './port-shape.js';

/**
 * A D: a flat side at -y as wide as the port, an arc at +y, centred by its overall width and height.
 * Where the height is at least half the width the arc is a half circle and two straights lead down to the flat; a lower port is a
 * circle's segment: one arc from end to end of the flat. The corners of the flat may be rounded as far as the straights reach.
 */
export const d = (lengths: Lengths) =>
  z
    .strictObject({
      kind: z.literal('d'),
      width: lengths.positive('Width across the flat, along x', LARGEST_PORT),
      height: lengths.positive('Overall height from the flat to the top of the arc, along y', LARGEST_PORT),
      corner_radius: lengths
        .atLeastZero('Radius of the two corners of the flat', LARGEST_PORT)
        .prefault(DEFAULTS.port.corner_radius),
      rotation: rotationField(),
    })
    .describe('A flat side at -y and an arc at +y: turn it by rotation.')
    .transform(({ width, height, corner_radius, rotation }, context): PortShape => {
      const straight = snapTo(snapTo(Math.max(0, height - width / 2), 0), width / 2);
      const largest = Math.min(width / 2, straight);
      const radius = snapTo(snapTo(corner_radius, 0), largest);
      if (radius > largest) {
        const reason = straight < width / 2 ? 'the straights beside the flat' : 'half the flat';
        const message = `expected a corner radius of at most ${lengthWords(largest, lengths.unit)}, ${reason}, found ${lengthWords(radius, lengths.unit)}`;
        context.addIssue({ code: 'custom', path: ['corner_radius'], message });
        return z.NEVER;
      }
      return {
        outline: turned(dOutline(width, height, straight, radius), rotation),
        words: `d ${sizeWords([width, height], lengths.unit)}, corners ${lengthWords(radius, lengths.unit)}${turnWords(rotation)}`,
      };
    });

function dOutline(width: number, height: number, straight: number, radius: number): Outline {
  const [w, bottom] = [width / 2, -height / 2];
  const spring = bottom + straight;
  const arc = straight > 0 ? 1 : height / w;
  const corner = radius > 0 ? QUARTER_BULGE : 0;
  const vertices = [
    { x: -w + radius, y: bottom, bulge: 0 },
    { x: w - radius, y: bottom, bulge: corner },
    { x: w, y: bottom + radius, bulge: 0 },
    { x: w, y: spring, bulge: arc },
    { x: -w, y: spring, bulge: 0 },
    { x: -w, y: bottom + radius, bulge: corner },
  ];
  return { vertices: vertices.filter((v, i) => apart(v, vertices[(i + 1) % vertices.length]!)) };
}

const apart = (a: OutlineVertex, b: OutlineVertex): boolean => distance2([a.x, a.y], [b.x, b.y]) > JOIN_TOLERANCE;
