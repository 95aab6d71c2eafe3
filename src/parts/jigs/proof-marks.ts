import { frameAlong, frameFacing } from '../../geometry/frame.js';
import { headingAt, pathLength } from '../../geometry/path/path.js';
import { skinAngle, skinFrame, skinNormal, type TubeSkin } from '../../geometry/sweep/tube-skin.js';
import { along, cross, dot, type Vec3 } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import type { RoutedTube } from '../../routing/routed.js';
import { piecesOf } from '../tube/pieces.js';
import { CUT_LINE, FOOT } from './dummy-tube.js';
import { type PrintedSpan, printedSpans } from './printed-spans.js';
import { RAISED } from './printed-writing.js';
import { crossings, pointsNear } from './proof-section.js';
import type { StandingPart } from './standing-part.js';
import { LINE, SCALES, TICK } from './tube-marks.js';

/** Marks of one sort on a tube's dummies, measured on their meshes; mm. */
export interface MarksFound {
  /** How many are there, of those looked for. */
  readonly found: number;
  readonly wanted: number;
  /** Largest difference from the height or depth they should have, and the running length it is at. */
  readonly error: number;
  readonly run: number;
}

/** What stands out of and is cut into a tube's dummies. */
export interface MarkProof {
  readonly tube: string;
  readonly ticks: MarksFound;
  /** Clocking lines; their depth. */
  readonly lines: MarksFound;
  /** Names of pieces; a short piece has none. */
  readonly names: MarksFound;
}

/** What lies less than this over the skin, mm, is the skin; nothing that is raised is looked for beyond that. */
const SKIN = 0.1;
const REACH = 3;

/** The marks of all tubes: ticks at their running lengths, a clocking line at every joint of the steel, the names. */
export function marksOf(plan: Plan, tubes: readonly RoutedTube[], standing: readonly StandingPart[]): MarkProof[] {
  return tubes.map((tube) => {
    const dummies = printedSpans(piecesOf(plan, tube), plan.jig.bed, plan.jig.keyLength).flatMap((span): Dummy[] => {
      const dummy = standing.find((s) => s.part.name === `tube-${span.file}`);
      return dummy ? [{ tube, span, dummy }] : [];
    });
    return {
      tube: tube.name,
      ticks: summed(dummies.flatMap((d) => ticksOn(d, plan))),
      lines: summed(plan.jig.marks ? dummies.flatMap(linesOn) : []),
      names: summed(dummies.map(nameOn)),
    };
  });
}

/** A dummy tube and where it belongs. */
interface Dummy {
  readonly tube: RoutedTube;
  readonly span: PrintedSpan;
  readonly dummy: StandingPart;
}

/** A mark looked for at a running length: what it is off by; null where there is none. */
interface Looked {
  readonly run: number;
  readonly error: number | null;
}

function summed(looked: readonly Looked[]): MarksFound {
  const found = looked.filter((l) => l.error !== null);
  const worst = found.reduce<Looked | null>((a, b) => (a && a.error! > b.error! ? a : b), null);
  return { found: found.length, wanted: looked.length, error: worst?.error ?? 0, run: worst?.run ?? 0 };
}

function ticksOn({ tube, span, dummy }: Dummy, { jig }: Plan): Looked[] {
  if (jig.scale === null) return [];
  const { tick } = SCALES[jig.scale];
  const first = Math.ceil((span.fromRun + 2 * CUT_LINE) / tick);
  const last = Math.floor((span.toRun - 2 * CUT_LINE) / tick);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => {
    const run = (first + i) * tick;
    const height = heightAt(tube, span, run, dummy);
    return { run, error: height && Math.abs(height - TICK.high) };
  });
}

/** How far from a joint a clocking line is measured, mm: past the groove, within the shortest line. */
const IN_LINE = CUT_LINE + 0.5;

/** The clocking lines at the joints of the steel, on the skin where the carried normal is; none looked for on the flat a tube lies on. */
function linesOn({ span, dummy }: Dummy): Looked[] {
  const skin: TubeSkin = { path: span.path, up: upOf(span, dummy), radius: span.od / 2 };
  const whole = pathLength(span.path);
  const ends = [
    ...(span.startsAtCut && !span.first ? [{ at: 0, run: IN_LINE, normal: span.startNormal }] : []),
    ...(span.endsAtCut ? [{ at: whole, run: whole - IN_LINE, normal: span.endNormal }] : []),
  ];
  return ends.flatMap(({ at, run, normal }) => {
    const angle = skinAngle(skin, at, normal);
    // a tube that stands has no flat, and next to none is lost by leaving it out there too
    const round = Math.abs(Math.atan2(Math.sin(angle + Math.PI / 2), Math.cos(angle + Math.PI / 2)));
    if (round < Math.acos(1 - FOOT / skin.radius) + LINE.width / skin.radius) return [];
    const { point, direction } = headingAt(span.path, run);
    const frame = frameFacing(point, direction, skinNormal(skin, run, angle));
    const heights = crossings(dummy.mesh, frame, skin.radius + REACH)
      .filter(([x, y]) => y > 0 && Math.abs(x) < 0.6 * LINE.width)
      .map((p) => Math.hypot(...p) - skin.radius)
      .filter((h) => h > -2 * LINE.depth);
    const depth = -Math.min(0, ...heights);
    return [{ run: span.fromRun + run, error: depth > SKIN ? Math.abs(depth - LINE.depth) : null }];
  });
}

/** The name of a piece, on top in its middle: its face is flat. */
function nameOn({ span, dummy }: Dummy): Looked {
  const skin: TubeSkin = { path: span.path, up: upOf(span, dummy), radius: span.od / 2 };
  const run = pathLength(span.path) / 2;
  const frame = skinFrame(skin, run, Math.PI / 2);
  const face = { ...frame, origin: along(frame.origin, frame.z, RAISED) };
  const heights = pointsNear(dummy.mesh, face, RAISED / 2, [0, NAME_REACH]).map((p) => p[2]);
  return { run: span.fromRun + run, error: heights.length < 4 ? null : Math.max(...heights.map(Math.abs)) };
}

/** Corners of a name are looked for this near its middle, mm: the smallest writing has some there. */
const NAME_REACH = 3;

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
