import { frameAlong, frameFacing } from '../../geometry/frame.js';
import { headingAt, pathLength } from '../../geometry/path.js';
import { cross, dot, type Vec3 } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import type { RoutedTube } from '../../routing/routed.js';
import { piecesOf } from '../pieces.js';
import { CUT_LINE } from './dummy-tube.js';
import { type PrintedSpan, printedSpans } from './printed-spans.js';
import { crossings } from './proof-section.js';
import type { StandingPart } from './standing-part.js';
import { SCALES, TICK } from './tube-marks.js';

/** Heights of the scale of a tube's dummies over the skin, measured on their meshes in sections; mm. */
export interface MarkProof {
  readonly tube: string;
  /** Ticks found, of those looked for. */
  readonly ticks: number;
  readonly wanted: number;
  /** Largest difference from the height they should have, and the running length it is at. */
  readonly error: number;
  readonly run: number;
}

/** What lies less than this over the skin, mm, is the skin; nothing that is raised is looked for beyond that. */
const SKIN = 0.1;
const REACH = 3;

/** The ticks of all tubes at their running lengths; nothing where the plan wants no scale. */
export function marksOf(plan: Plan, tubes: readonly RoutedTube[], standing: readonly StandingPart[]): MarkProof[] {
  const { scale, bed, keyLength } = plan.jig;
  if (scale === null) return [];
  const { tick } = SCALES[scale];
  return tubes.map((tube) => {
    const proof = { tube: tube.name, ticks: 0, wanted: 0, error: 0, run: 0 };
    for (const span of printedSpans(piecesOf(plan, tube), bed, keyLength)) {
      const dummy = standing.find((s) => s.part.name === `tube-${span.file}`);
      const [from, to] = [span.fromRun + 2 * CUT_LINE, span.toRun - 2 * CUT_LINE];
      for (let run = Math.ceil(from / tick) * tick; dummy && run <= to; run += tick) {
        proof.wanted++;
        const height = heightAt(tube, span, run, dummy);
        if (height === null) continue;
        proof.ticks++;
        const error = Math.abs(height - TICK.high);
        if (error >= proof.error) [proof.error, proof.run] = [error, run];
      }
    }
    return proof;
  });
}

/** How high the outside of a dummy stands over the tube's radius where the scale is; null where nothing is raised. */
function heightAt(tube: RoutedTube, span: PrintedSpan, run: number, dummy: StandingPart): number | null {
  const { point, direction } = headingAt(tube.path, run);
  const frame = frameAlong(point, direction);
  const out = cross(direction, upOf(span, dummy));
  const [x, y] = [dot(out, frame.x), dot(out, frame.y)];
  const radius = span.od / 2;
  const heights = crossings(dummy.mesh, frame, radius + REACH)
    .filter((p) => p[0] * x + p[1] * y > 0 && Math.abs(p[0] * y - p[1] * x) < TICK.short / 2)
    .map((p) => Math.hypot(...p) - radius);
  const most = Math.max(0, ...heights);
  return most > SKIN ? most : null;
}

/** The way up when a dummy lies; a straight that stands has its marks by its carried normal. */
function upOf({ path, startNormal }: PrintedSpan, { part }: StandingPart): Vec3 {
  const { point, direction } = headingAt(path, Math.min(1, pathLength(path) / 2));
  const lies = Math.abs(dot(part.pose.z, direction)) < 0.5;
  return lies ? part.pose.z : frameFacing(point, direction, startNormal).y;
}
