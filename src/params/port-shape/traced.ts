import * as z from 'zod';
import type { Outline } from '../../geometry/outline.js';
import { outlineContains } from '../../geometry/outline-contains.js';
import { outlineBounds, signedArea } from '../../geometry/outline-measure.js';
import { reverseOutline } from '../../geometry/outline-transform.js';
import { validateOutline } from '../../geometry/outline-valid.js';
import { MOST_TRACED_POINTS } from '../limits.js';
import type { Lengths } from '../schema/length-field.js';
import { numberField } from '../schema/number-field.js';
import { tidy } from '../wording.js';
import { LARGEST_PORT, type PortShape } from './port-shape.js';

/** Shortest side of a traced port, mm. */
const LEAST_SIDE = 0.01;

/** Corners traced from a gasket or a scan, about the port's centre, in either sense; sides are lines or arcs. */
export const traced = (lengths: Lengths) =>
  z
    .strictObject({
      kind: z.literal('traced'),
      points: z
        .array(
          z.tuple([
            lengths.coordinate('x'),
            lengths.coordinate('y'),
            numberField(
              'Bulge of the side to the next corner: tan(arc / 4), positive counter-clockwise, 1 a half circle',
              -1,
              1,
            ).optional(),
          ]),
        )
        .min(2)
        .max(MOST_TRACED_POINTS)
        .describe("Corners [x, y] or [x, y, bulge] about the port's centre; the outline closes by itself"),
    })
    .describe('A port by its traced corners.')
    .transform(({ points }, context): PortShape => {
      const outline: Outline = { vertices: points.map(([x, y, bulge = 0]) => ({ x, y, bulge })) };
      const fault = faultOf(outline);
      if (fault !== null) {
        context.addIssue({ code: 'custom', path: ['points', ...fault.place], message: fault.message });
        return z.NEVER;
      }
      const { from, to } = outlineBounds(outline);
      return {
        outline: signedArea(outline) > 0 ? outline : reverseOutline(outline),
        words: `traced ${tidy(to[0] - from[0])} x ${tidy(to[1] - from[1])} mm, ${points.length} corners`,
      };
    });

function faultOf(outline: Outline): { readonly place: readonly number[]; readonly message: string } | null {
  const v = outline.vertices;
  const last = v.length - 1;
  if (last > 1 && v[0]!.x === v[last]!.x && v[0]!.y === v[last]!.y) {
    return { place: [last], message: 'the outline closes by itself: leave out the last point, it repeats the first' };
  }
  const twin = v.findIndex(
    (p, i) => Math.hypot(p.x - v[(i + 1) % v.length]!.x, p.y - v[(i + 1) % v.length]!.y) < LEAST_SIDE,
  );
  if (twin >= 0) {
    return { place: [(twin + 1) % v.length], message: `this point lies within ${LEAST_SIDE} mm of the one before` };
  }
  try {
    validateOutline(outline, { leastSide: LEAST_SIDE, turning: 'either' });
  } catch (error) {
    return {
      place: [],
      message: `expected an outline with area that does not cross itself: ${(error as Error).message}`,
    };
  }
  if (!outlineContains(outline, [0, 0])) {
    return {
      place: [],
      message: "the outline must hold the port's centre: give its corners about `at`, which is [0, 0]",
    };
  }
  const { from, to } = outlineBounds(outline);
  if (Math.max(to[0] - from[0], to[1] - from[1]) > LARGEST_PORT.max) {
    return { place: [], message: `expected a port of at most ${LARGEST_PORT.max} mm` };
  }
  return null;
}
