import * as z from 'zod';
import type { Outline, OutlineVertex } from '../../geometry/outline/outline.js';
import { JOIN_TOLERANCE } from '../../geometry/tolerance.js';
import { distance2 } from '../../geometry/vec2.js';
import { DEFAULTS } from '../defaults.js';
import { lengthWords, sizeWords } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';
import { LARGEST_PORT, type PortShape, rotationField, snapTo, turned, turnWords } from './port-shape.js';

/** An even trapezoid: one side along x at the bottom, one at the top, all four corners of one radius; centred at half its height. */
export const trapezoid = (lengths: Lengths) =>
  z
    .strictObject({
      kind: z.literal('trapezoid'),
      width_bottom: lengths.positive('Width at the bottom, along x, to where the sides would meet', LARGEST_PORT),
      width_top: lengths.positive('Width at the top, along x, to where the sides would meet', LARGEST_PORT),
      height: lengths.positive('Height, along y', LARGEST_PORT),
      corner_radius: lengths.atLeastZero('Radius of the corners', LARGEST_PORT).prefault(DEFAULTS.port.corner_radius),
      rotation: rotationField(),
    })
    .describe('An even trapezoid with rounded corners.')
    .transform(({ width_bottom: bottom, width_top, height, corner_radius, rotation }, context): PortShape => {
      const top = snapTo(width_top, bottom);
      const { largest, reason } = largestRadius(bottom, top, height);
      const radius = snapTo(snapTo(corner_radius, 0), largest);
      if (radius > largest) {
        const words = (mm: number) => lengthWords(mm, lengths.unit);
        const message = `expected a corner radius of at most ${words(largest)}, ${reason}, found ${words(radius)}`;
        context.addIssue({ code: 'custom', path: ['corner_radius'], message });
        return z.NEVER;
      }
      return {
        outline: turned(trapezoidOutline(bottom, top, height, radius), rotation),
        words: `trapezoid ${lengthWords(bottom, lengths.unit)} and ${sizeWords([top, height], lengths.unit)}, corners ${lengthWords(radius, lengths.unit)}${turnWords(rotation)}`,
      };
    });

/** How far a corner's radius reaches along its sides, as multiples of the radius: cot of half the angle within, at bottom and top. */
function reaches(bottom: number, top: number, height: number): { readonly low: number; readonly high: number } {
  const half = Math.atan2(height, (bottom - top) / 2) / 2;
  return { low: 1 / Math.tan(half), high: Math.tan(half) };
}

/** The radius at which the corners of one side, or of bottom and top, touch. */
function largestRadius(bottom: number, top: number, height: number) {
  const { low, high } = reaches(bottom, top, height);
  const limits = [
    { largest: bottom / 2 / low, reason: 'where the corners at the bottom touch' },
    { largest: top / 2 / high, reason: 'where the corners at the top touch' },
    { largest: height / 2, reason: 'half the height' },
  ];
  return limits.reduce((a, b) => (b.largest < a.largest ? b : a));
}

function trapezoidOutline(bottom: number, top: number, height: number, radius: number): Outline {
  const { low, high } = reaches(bottom, top, height);
  const [w, v, h] = [bottom / 2, top / 2, height / 2];
  const side = Math.hypot(w - v, height);
  const [sx, sy] = [(v - w) / side, height / side];
  const [a, b] = [radius * low, radius * high];
  // Corners turn by pi less the angle within: tan of a quarter of it.
  const lowBulge = radius > 0 ? Math.tan(Math.atan(low) / 2) : 0;
  const highBulge = radius > 0 ? Math.tan(Math.atan(high) / 2) : 0;
  const right = [
    { x: w - a, y: -h, bulge: lowBulge },
    { x: w + a * sx, y: -h + a * sy, bulge: 0 },
    { x: v - b * sx, y: h - b * sy, bulge: highBulge },
    { x: v - b, y: h, bulge: 0 },
  ] as const;
  const vertices = [
    ...right,
    { x: -right[3].x, y: h, bulge: highBulge },
    { x: -right[2].x, y: right[2].y, bulge: 0 },
    { x: -right[1].x, y: right[1].y, bulge: lowBulge },
    { x: -right[0].x, y: -h, bulge: 0 },
  ];
  return { vertices: vertices.filter((p, i) => apart(p, vertices[(i + 1) % vertices.length]!)) };
}

const apart = (a: OutlineVertex, b: OutlineVertex): boolean => distance2([a.x, a.y], [b.x, b.y]) > JOIN_TOLERANCE;
