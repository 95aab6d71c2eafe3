import { type Frame, frameFacing, pointInto, WORLD } from '../../geometry/frame.js';
import { flattenOutline } from '../../geometry/outline/flatten.js';
import { offsetOutline } from '../../geometry/outline/offset.js';
import { headingAt, type Path, partOfPath } from '../../geometry/path/path.js';
import { pathInto } from '../../geometry/path/placed.js';
import {
  bodiesOf,
  difference,
  evaluate,
  hull,
  minGap,
  placed,
  type Solid,
  solidOf,
  trimmed,
  union,
} from '../../geometry/solid/solid.js';
import { bar, circlePoints, prism } from '../../geometry/solid/solid-shapes.js';
import { obstacleDistance } from '../../geometry/space/obstacle.js';
import { segmentApproach } from '../../geometry/space/segment-distance.js';
import { sweepRound } from '../../geometry/sweep/sweep.js';
import { add2, type Vec2 } from '../../geometry/vec2.js';
import { along, distance, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { JigFoot, Plan } from '../../params/plan.js';
import type { KeptOut } from '../../routing/problem.js';
import type { RoutedPrimary, RoutedTube } from '../../routing/routed.js';
import type { FlangePart } from '../flange/flange.js';
import type { SolidPart } from '../part.js';
import { printedPart } from '../printed-part.js';
import { tubeStart } from '../tube/pieces.js';
import { type FootPlace, footPlaces, PAD } from './foot-places.js';
import { LIP, proofThickness } from './proof-plate.js';
import { PROUD } from './skin-text.js';
import type { TakenLine } from './strut-line.js';

/** Feet under first pieces, and remarks where there is no room. */
export interface TubeFeet {
  readonly parts: readonly SolidPart[];
  readonly notes: readonly string[];
}

/** What the feet keep clear of. */
export interface FeetAmong {
  readonly primaries: readonly RoutedPrimary[];
  readonly tubes: readonly RoutedTube[];
  readonly flanges: readonly FlangePart[];
  readonly keptOut: readonly KeptOut[];
  readonly struts: readonly TakenLine[];
}

/** The shell under the tube: its wall, its length along the tube, and the groove round it for a cable tie, mm. */
const SHELL = { wall: 5, length: 14, tie: 5.5, groove: 1.5 } as const;

/** Radius of what carries the shell, mm, and how far, in tube diameters, from the flange the shell stands. */
const WEB = 7;
const OUT = 0.75;

/** Room to anything else, mm. */
const ROOM = 2;

/** Most places tried for one tube, nearest first. */
const MOST_TRIES = 12;

/**
 * A foot for every primary's first piece: bolted to the flange at the bolt nearest its port, with half a shell that carries the tube
 * at its angle from the bolt's side and a groove round it for a cable tie, clear by 2 mm of other tubes, struts and kept-out space.
 */
export function tubeFeet(plan: Plan, foot: JigFoot, among: FeetAmong): TubeFeet {
  const parts: SolidPart[] = [];
  const notes: string[] = [];
  const used = among.struts.flatMap((s) => (s.foot ? [s.foot] : []));
  for (const primary of among.primaries) {
    const made = footOf(plan, foot, primary, among, used);
    if (made === null) {
      notes.push(
        `foot of ${primary.name}: no bolt near its port has room for one; tie the first piece up by other means`,
      );
      continue;
    }
    used.push(made.place);
    parts.push(made.part);
  }
  return { parts, notes };
}

function footOf(
  plan: Plan,
  { bolts }: JigFoot,
  primary: RoutedPrimary,
  among: FeetAmong,
  used: readonly FootPlace[],
): { part: SolidPart; place: FootPlace } | null {
  const flange = among.flanges.find((f) => f.cylinders.includes(primary.cylinder))!;
  const head = plan.heads[flange.head]!.frame;
  const od = primary.sections[0]!.od;
  const run = tubeStart(plan, primary) + OUT * od;
  const held = headingAt(primary.path, run).point;
  const places = footPlaces(plan, flange, WEB)
    .filter((p) => bolts === null || bolts.includes(p.bolt + 1))
    .filter((p) => used.every((u) => u.head !== p.head || u.bolt !== p.bolt))
    .filter((p) => distance(p.root, held) > od / 2 + WEB)
    .sort((a, b) => distance(a.root, held) - distance(b.root, held))
    .slice(0, MOST_TRIES);
  for (const place of places) {
    const solid = footSolid(plan, flange, primary, place, run);
    if (bodiesOf(solid) !== 1 || !isClear(solid, head, place, held, primary, among, od)) continue;
    const part = printedPart(
      {
        name: `tube-foot-${primary.cylinder}`,
        kind: 'tube-foot',
        title: `Foot of cylinder ${primary.cylinder}'s first piece, at ${place.bolted}; hold the tube with a cable tie`,
        solid,
        at: head,
        up: WORLD,
        chamfer: plan.jig.chamfer,
      },
      plan.jig.bed,
    );
    return { part, place };
  }
  return null;
}

/** The foot in the frame of its head. */
function footSolid(plan: Plan, flange: FlangePart, primary: RoutedPrimary, place: FootPlace, run: number): Solid {
  const path = pathInto(place.frame, primary.path);
  const radius = primary.sections[0]!.od / 2;
  const inner = radius + plan.jig.fit + PROUD;
  const outer = inner + SHELL.wall;
  const [plate, top] = [proofThickness(plan), proofThickness(plan) + PAD];
  const { point, direction } = headingAt(path, run);
  const seat: Vec3 = [place.seat[0], place.seat[1], top];
  const axis = frameFacing(point, direction, sub(seat, point));
  const half = SHELL.length / 2;
  const shell = placed(trimmed(bar(outer, -half, half), { point: [0, 0, 0], normal: [0, 1, 0] }), axis);
  const groove = placed(
    difference(bar(outer + SHELL.groove, -SHELL.tie / 2, SHELL.tie / 2), bar(outer - SHELL.groove, -half, half)),
    axis,
  );
  const under = placed(bar(WEB, -half, half), { ...axis, origin: along(point, axis.y, inner + WEB / 2) });
  const disc = (at: Vec2, r: number): Solid => placed(bar(r, plate, top), { ...WORLD, origin: [at[0], at[1], 0] });
  const pad = hull(disc(place.at, place.padRadius), disc(place.seat, WEB + 1));
  // grows from the pad to the shell's ends, so that these do not hang in the air when it is printed
  const web = hull(disc(place.seat, WEB + 1), under, shell);
  const column = (r: number, from: number, to: number): Solid =>
    prism(
      circlePoints(r, undefined, 'chords-outside').map((p) => add2(p, place.at)),
      from,
      to,
    );
  const opening = flange.region.openings.find((o) => o.cylinder === primary.cylinder)!;
  return difference(
    trimmed(union(pad, web), { point: [0, 0, plate], normal: [0, 0, 1] }),
    solidOf(sweepRound(around(path, run, 2 * outer), inner)),
    groove,
    column(place.holeDiameter / 2, plate - 1, top + 1),
    column(place.toolRadius, top, top + 200),
    prism(flattenOutline(offsetOutline(opening.outline, LIP + 1)), plate - 1, plan.flange.thickness + 1),
  );
}

/** The tube some way on either side of a running length. */
const around = (path: Path, run: number, by: number): Path => partOfPath(path, Math.max(0, run - by), run + by);

function isClear(
  solid: Solid,
  head: Frame,
  place: FootPlace,
  held: Vec3,
  primary: RoutedPrimary,
  { tubes, keptOut, struts }: FeetAmong,
  od: number,
): boolean {
  const reach = Math.max(place.padRadius, WEB + SHELL.wall);
  const spine = [place.boltRoot, place.root, along(held, unit(sub(place.root, held)), od / 2)];
  const along3 = spine.slice(1).flatMap((q, i) => [0, 0.5, 1].map((t) => along(spine[i]!, sub(q, spine[i]!), t)));
  if (
    struts.some((s) =>
      spine.slice(1).some((q, i) => segmentApproach(s.from, s.to, spine[i]!, q).distance < reach + s.radius + 4),
    )
  )
    return false;
  const own = (k: KeptOut): boolean => k.startsOn.includes(primary.id);
  if (keptOut.some((k) => !own(k) && along3.some((p) => obstacleDistance(k.obstacle, p) < WEB + ROOM))) return false;
  const local = solidOf(evaluate(solid));
  return tubes.every((t) => {
    const path = pathInto(head, t.path);
    const from = t.id === primary.id ? 4 * od : 0;
    const near = nearPart(path, from, t.length, pointInto(head, held), 5 * od);
    return near === null || minGap(local, solidOf(sweepRound(near, t.sections.at(-1)!.od / 2)), 10) >= ROOM;
  });
}

/** The stretch of a path that comes within a distance of a point; null when none does. */
function nearPart(path: Path, from: number, to: number, p: Vec3, within: number): Path | null {
  const runs: number[] = [];
  for (let run = from; run <= to; run += 5) if (distance(headingAt(path, run).point, p) < within) runs.push(run);
  if (runs.length < 2) return null;
  return partOfPath(path, runs[0]!, runs[runs.length - 1]!);
}
