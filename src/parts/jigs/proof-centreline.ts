import { frameAlong } from '../../geometry/frame.js';
import { headingAt } from '../../geometry/path/path.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { Plan } from '../../params/plan.js';
import type { RoutedTube } from '../../routing/routed.js';
import { piecesOf } from '../tube/pieces.js';
import { CUT_LINE } from './dummy-tube.js';
import { type PrintedSpan, printedSpans } from './printed-spans.js';
import { circleThrough } from './proof-circle.js';
import { crossings } from './proof-section.js';
import type { StandingPart } from './standing-part.js';

/** The centreline of a tube's dummies as measured on their meshes, against its route; mm. */
export interface CentrelineProof {
  readonly tube: string;
  /** Sections a circle was found in, of those looked for. */
  readonly sections: number;
  readonly wanted: number;
  /** Largest distance of a section's middle from the route, and the running length it is at. */
  readonly error: number;
  readonly run: number;
  /** Largest difference of a section's radius from the tube's, and of its skin from its own circle. */
  readonly radius: number;
  readonly skin: number;
}

/** Sections looked at in every printed span. */
const SECTIONS = 7;

/** Part of a span's length left out at either end: a tilted face, a joint and its groove. */
const ENDS = 0.12;

/** Running lengths of the sections of one printed span; none in one that is all groove and chamfer. */
function sectionRuns({ fromRun, toRun }: PrintedSpan): number[] {
  const ends = Math.max(ENDS * (toRun - fromRun), 1.5 * CUT_LINE);
  const between = toRun - fromRun - 2 * ends;
  if (between < 0) return [];
  return Array.from({ length: SECTIONS }, (_, i) => fromRun + ends + (between * i) / (SECTIONS - 1));
}

/** The centrelines of all tubes: sections across the standing dummies, a circle fitted to the outside of each. */
export function centrelinesOf(
  plan: Plan,
  tubes: readonly RoutedTube[],
  standing: readonly StandingPart[],
): CentrelineProof[] {
  return tubes.map((tube) => {
    const proof = { tube: tube.name, sections: 0, wanted: 0, error: 0, run: 0, radius: 0, skin: 0 };
    for (const span of printedSpans(piecesOf(plan, tube), plan.jig.bed, plan.jig.keyLength)) {
      const dummies = standing.filter((s) => s.part.name === `tube-${span.file}`);
      for (const run of sectionRuns(span)) {
        proof.wanted++;
        const found = sectionAt(tube, run, span.od / 2, dummies);
        if (found === null) continue;
        proof.sections++;
        proof.radius = Math.max(proof.radius, Math.abs(found.radius - span.od / 2));
        proof.skin = Math.max(proof.skin, found.worst);
        if (found.error >= proof.error) [proof.error, proof.run] = [found.error, run];
      }
    }
    return proof;
  });
}

function sectionAt(tube: RoutedTube, run: number, radius: number, dummies: readonly StandingPart[]) {
  const { point, direction } = headingAt(tube.path, run);
  const frame = frameAlong(point, direction);
  // what a socket, a bore or writing leaves in the section lies further in or out
  const points = dummies
    .flatMap((d) => crossings(d.mesh, frame, radius + 1))
    .filter(([x, y]) => Math.hypot(x, y) > 0.75 * radius);
  const circle = circleThrough(evenlyRound(points));
  return circle === null ? null : { ...circle, error: Math.hypot(circle.centre[0], circle.centre[1]) };
}

/** Directions about the route a section is looked at in: writing has many corners in few of them. */
const DIRECTIONS = 48;

/** The middle one, by distance, of the points in each direction. */
function evenlyRound(points: readonly Vec2[]): Vec2[] {
  const bins = new Map<number, Vec2[]>();
  for (const p of points) {
    const bin = Math.floor(((Math.atan2(p[1], p[0]) / Math.PI + 1) / 2) * DIRECTIONS);
    bins.set(bin, [...(bins.get(bin) ?? []), p]);
  }
  return [...bins.values()].map((list) => {
    const sorted = [...list].sort((a, b) => Math.hypot(...a) - Math.hypot(...b));
    return sorted[Math.floor(sorted.length / 2)]!;
  });
}
