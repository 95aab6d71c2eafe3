import { type Contour, shortNumber } from '../../geometry/contour/contour.js';
import { refuseCrossing } from '../../geometry/contour/crossing.js';
import { type FittedContour, fitContour } from '../../geometry/contour/fit.js';
import { outlineCentroid } from '../../geometry/outline/centroid.js';
import { outlineContains } from '../../geometry/outline/contains.js';
import { pointToOutline } from '../../geometry/outline/distance.js';
import { outlineArea, outlineBounds } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { outlineOfSides } from '../../geometry/outline/sides.js';
import { mirrorOutline, translateOutline } from '../../geometry/outline/transform.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { tidy } from '../faults/wording.js';
import { MOST_TRACED_POINTS } from '../limits.js';
import { type PortShape, turned, turnWords } from '../port-shape/port-shape.js';
import type { TracedFile } from '../port-shape/traced.js';
import { tracedFault, tracedSize } from '../port-shape/traced-outline.js';
import type { LengthUnit } from '../units.js';
import { traceFault } from './trace-fault.js';
import { contourName, type ReadContours } from './trace-file.js';

/** A port's shape from a file, and what is to be said of it. */
export interface TracedPort {
  readonly shape: PortShape;
  readonly notes: readonly string[];
}

/** The shape of a port that stands in a file. Throws RangeError as the reader of contours does, and for a contour that is no port. */
export function tracedPort(trace: TracedFile, read: ReadContours, unit: LengthUnit): TracedPort {
  const { contours, notes } = read(trace);
  const contour = chosen(contours, trace);
  const fitted = fittedPort(contour, trace.fit);
  const centre = trace.at ?? outlineCentroid(fitted.outline);
  const outline = placed(fitted.outline, centre, trace);
  const fault = tracedFault(outline, unit);
  if (fault !== null)
    throw offCentre(outline)
      ? traceFault('at', offCentreWords(centre))
      : new RangeError(`${contourName(contour)}: ${fault.message}`);
  const words = `traced ${tracedSize(outline)} from ${trace.file}${turnWords(trace.rotation)}`;
  return { shape: { outline, words }, notes: [...notes, ...fitNotes(fitted, trace.file)] };
}

/** The outline of a contour that may be a port. Throws RangeError where it crosses itself, cannot be fitted, or has too many sides. */
export function fittedPort(contour: Contour, fit: number): FittedContour {
  refuseCrossing(contour);
  const fitted = fitContour(contour, fit);
  const sides = fitted.outline.vertices.length;
  if (sides > MOST_TRACED_POINTS) {
    const message = `${sides} lines and arcs are left of ${contourName(contour)} within ${shortNumber(fit)} mm, over ${MOST_TRACED_POINTS}: too rough for a port; raise fit, or draw it with fewer`;
    throw traceFault('fit', message);
  }
  return fitted;
}

const offCentre = (outline: Outline): boolean => !outlineContains(outline, [0, 0]);

const offCentreWords = ([x, y]: Vec2): string =>
  `the point of the file at the port's centre must lie in the contour, found ${tidy(x)}, ${tidy(y)} mm`;

/** The outline with a point of it brought to the origin, then seen from the other side, then turned by degrees. */
export function placed(
  outline: Outline,
  centre: Vec2,
  { mirror, rotation }: { readonly mirror: boolean; readonly rotation: number },
): Outline {
  const about = translateOutline(outline, [-centre[0], -centre[1]]);
  return turned(mirror ? mirrorOutline(about) : about, rotation);
}

/** `400 points of scan.csv are fitted by 14 lines and arcs, largest deviation 0.018 mm`, where points were fitted. */
export function fitNotes({ points, fitted, deviation }: FittedContour, file: string): readonly string[] {
  if (points === 0) return [];
  const off = Math.ceil(deviation * 1000 - 1e-6) / 1000;
  return [`${points} points of ${file} are fitted by ${fitted} lines and arcs, largest deviation ${tidy(off)} mm`];
}

function chosen(contours: readonly Contour[], { contour, at }: TracedFile): Contour {
  const point = typeof contour === 'number' ? null : (contour ?? at);
  if (typeof contour === 'number') {
    const found = contours[contour - 1];
    if (found === undefined) {
      throw traceFault(
        'contour',
        `expected a number from 1 to ${contours.length}, the closed contours of the file, found ${contour}`,
      );
    }
    return found;
  }
  if (contours.length === 1) return contours[0]!;
  if (contours.length === 0) throw new RangeError('it has no closed contour');
  if (point === null) {
    throw traceFault(
      'contour',
      `missing; the file has ${contours.length} closed contours: give the number of one, or a point [x, y] in it. ${listed(contours)}`,
    );
  }
  return contourAt(contours, point);
}

/** The smallest contour that holds a point, or the nearest to it. */
function contourAt(contours: readonly Contour[], point: Vec2): Contour {
  const outlines = contours.map(rawOutline);
  const order = contours.map((_, i) => i);
  const holding = order.filter((i) => outlineContains(outlines[i]!, point));
  const by = (measure: (o: Outline) => number) => (a: number, b: number) =>
    measure(outlines[a]!) - measure(outlines[b]!);
  const best =
    holding.length > 0
      ? [...holding].sort(by(outlineArea))[0]!
      : [...order].sort(by((o) => pointToOutline(point, o).distance))[0]!;
  return contours[best]!;
}

/** The outline of a contour as it stands in the file. */
export const rawOutline = (contour: Contour): Outline => outlineOfSides(contour.map((s) => s.side));

/** Most contours a message lists. */
const MOST_LISTED = 8;

function listed(contours: readonly Contour[]): string {
  const words = contours.slice(0, MOST_LISTED).map((c, i) => {
    const { from, to } = outlineBounds(rawOutline(c));
    const middle = `${tidy((from[0] + to[0]) / 2)}, ${tidy((from[1] + to[1]) / 2)}`;
    return `${i + 1}: ${tracedSize(rawOutline(c))} about ${middle}, ${contourName(c)}`;
  });
  return `${words.join('; ')}${contours.length > MOST_LISTED ? '; ...' : ''}`;
}
