import { distance2 } from '../geometry/vec2.js';
import { lengthsIn, lengthWords, sentence } from '../params/faults/wording.js';
import type { Plan } from '../params/plan.js';
import { cutDeviation } from '../parts/flange/cut-tolerance.js';
import type { FlangePart } from '../parts/flange/flange.js';
import type { FlangeHole } from '../parts/flange/region.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** A bolt hole as it is cut, mm. */
interface Fit {
  readonly hole: FlangeHole;
  /** Between thread and hole on either side when the bolt stands in the middle. */
  readonly room: number;
}

/** The tolerance of the cut, ISO 9013, against what the bolts have to spare in their holes: the worst pair of bolts of each flange. */
export function cutTolerance({ plan, flanges }: CheckContext): Finding[] {
  return flanges.flatMap((f) => {
    const fits = fitsOf(plan, f);
    const pairs = fits.flatMap((a, i) => fits.slice(i + 1).map((b) => pair(plan, f, a, b)));
    const known = pairs.filter((p) => p !== null);
    if (known.length === 0) return pairs.length === 0 ? [] : [unknown(plan, f)];
    return [known.reduce((a, b) => (b.limit - b.value < a.limit - a.value ? b : a))];
  });
}

const fitsOf = (plan: Plan, flange: FlangePart): Fit[] =>
  flange.region.bolts.map((hole) => {
    const { threadDiameter, holeDiameter } = plan.heads[flange.head]!.bolts[hole.bolt]!;
    return { hole, room: (holeDiameter - threadDiameter) / 2 };
  });

/**
 * What two holes miss their bolts by at worst: half the deviation of their distance each, and half that of a hole that is cut; a drilled
 * one keeps its size. Null where the table knows none.
 */
function pair(plan: Plan, flange: FlangePart, a: Fit, b: Fit): Finding | null {
  const { cutClass, thickness } = plan.flange;
  const pitch = distance2(a.hole.at, b.hole.at);
  const along = cutDeviation(cutClass, thickness, pitch);
  if (along === null) return null;
  const sizes = [a, b].map((f) => (f.hole.drill ? 0 : cutDeviation(cutClass, thickness, f.hole.diameter)));
  if (sizes.some((s) => s === null)) return null;
  const size = Math.max(...sizes.map(Number));
  const value = along / 2 + size / 2;
  const limit = Math.min(a.room, b.room);
  const holds = value <= limit;
  const words = lengthsIn(plan.units);
  const figures = `class ${cutClass} of ISO 9013 allows ${words(along, 2)} on the ${words(pitch, 1)} between bolts ${a.hole.bolt + 1} and ${b.hole.bolt + 1}${size > 0 ? ` and ${words(size, 2)} on the hole` : ''}: ${words(value, 2)} a hole, where the bolts have ${words(limit, 2)} to spare`;
  return {
    id: 'flange.cut-tolerance',
    level: holds ? 'ok' : 'warn',
    place: flange.name,
    value,
    limit,
    unit: 'mm',
    message: sentence(
      `${figures}${holds ? '' : '; transfer the holes from the head, cut to class 1, or take a coarser bolt_fit'}`,
    ),
  };
}

/** No figure: said, and not held against the flange. */
const unknown = (plan: Plan, flange: FlangePart): Finding => ({
  id: 'flange.cut-tolerance',
  level: 'ok',
  place: flange.name,
  value: 0,
  limit: 0,
  unit: 'mm',
  message: `The table of ISO 9013 used here has no figure for ${lengthWords(plan.flange.thickness, plan.units, 2)} plate at these sizes: ask the shop what it keeps.`,
});
