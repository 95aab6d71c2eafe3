import { type Frame, frameFacing, pointInto } from '../../geometry/frame.js';
import { type Heading, headingAt, pathLength } from '../../geometry/path/path.js';
import { spanAtRun } from '../../geometry/path/span-at-run.js';
import { type Obstacle, obstacleDistance } from '../../geometry/space/obstacle.js';
import { segmentApproach } from '../../geometry/space/segment-distance.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { along, distance, dot, lerp, rotateAbout, sub, type Vec3 } from '../../geometry/vec3.js';
import type { RoutedTube } from '../../routing/routed.js';
import type { TakenLine } from './strut-line.js';

/** A tube in a comb. */
export interface CombSeat {
  readonly id: string;
  /** Running length at which it passes, mm. */
  readonly run: number;
  readonly radius: number;
  /** Its middle in the comb's frame. */
  readonly at: Vec2;
  /** Which way it passes, world. */
  readonly direction: Vec3;
}

/** Where a comb stands: z of the frame along the tubes, y the way its seats are open. World. */
export interface CombPlace {
  readonly frame: Frame;
  readonly seats: readonly CombSeat[];
}

/** What a comb looks at and keeps clear of. */
export interface CombSpace {
  readonly tubes: readonly RoutedTube[];
  readonly obstacles: readonly Obstacle[];
  readonly struts: readonly TakenLine[];
  /** Half the comb's thickness and its gap about the tubes, mm. */
  readonly half: number;
  readonly gap: number;
}

/** Tubes nearer than this, mm, skin to skin, want a comb. */
const CLOSE = 25;

/** Least tooth between two seats, mm, and how far the comb reaches round a tube. */
const LEAST_TOOTH = 3;
export const REACH = 6;

/** Room between a comb and anything it does not seat, mm. */
const ROOM = 2;

/** Tubes are looked at this finely, mm. */
const STEP = 5;

/** How near square to the comb a tube passes: cosine of 12 degrees. */
const SQUARE = Math.cos((12 * Math.PI) / 180);

/** How far from a tube's ends a comb keeps, in diameters: plugs, holders and their fingers are there. */
const FROM_START = 1.5;
const FROM_END = 2.5;

interface Sampled {
  readonly tube: RoutedTube;
  readonly headings: readonly (Heading & { readonly run: number; readonly radius: number })[];
}

/**
 * Combs for tubes that run side by side within 25 mm: each group of two or more that pass one plane nearly square gets one,
 * the largest groups first, at most one for any two tubes; `missed` names pairs that come close but pass no such plane free of
 * everything else.
 */
export function combPlaces(space: CombSpace): { places: CombPlace[]; missed: (readonly [string, string])[] } {
  const all = space.tubes.map(sampled);
  const close = new Map<string, readonly [string, string]>();
  const candidates: CombPlace[] = [];
  for (const one of all) {
    for (const h of one.headings) {
      const seats = groupAt(one, h, all, close, space);
      if (seats.length < 2) continue;
      const place = openedPlace(h, seats);
      if (place !== null && isFree(place, all, space)) candidates.push(place);
    }
  }
  candidates.sort((a, b) => worth(b) - worth(a));
  const places: CombPlace[] = [];
  for (const c of candidates) {
    const fresh = pairsOf(c).some((pair) => close.has(pair));
    if (!fresh || places.some((p) => distance(p.frame.origin, c.frame.origin) < 4 * space.half + 2 * REACH)) continue;
    places.push(c);
    for (const pair of pairsOf(c)) close.delete(pair);
  }
  return { places, missed: [...close.values()] };
}

const pairKey = (a: string, b: string): string => (a < b ? `${a}\n${b}` : `${b}\n${a}`);

const pairsOf = ({ seats }: CombPlace): string[] =>
  seats.flatMap((a, i) => seats.slice(i + 1).map((b) => pairKey(a.id, b.id)));

/** More seats, squarer, more compact. */
function worth({ seats, frame }: CombPlace): number {
  const least = Math.min(...seats.map((s) => Math.abs(dot(s.direction, frame.z))));
  const span = Math.max(...seats.map((s) => Math.hypot(...s.at)));
  return 100 * seats.length + 200 * (least - 1) - 0.1 * span;
}

function sampled(tube: RoutedTube): Sampled {
  const length = pathLength(tube.path);
  const sizes = tube.sections;
  const count = Math.max(1, Math.round(length / STEP));
  const headings = Array.from({ length: count + 1 }, (_, i) => {
    const run = (length * i) / count;
    const size = spanAtRun(sizes, run);
    return { ...headingAt(tube.path, run), run, radius: size.od / 2 };
  });
  return { tube, headings };
}

const inReach = ({ tube }: Sampled, run: number, radius: number): boolean =>
  run > 2 * radius * FROM_START && run < tube.length - 2 * radius * FROM_END;

/** The tubes that pass the plane across one at a place, nearly square and close to another of the group; notes every close pair. */
function groupAt(
  one: Sampled,
  h: Sampled['headings'][number],
  all: readonly Sampled[],
  close: Map<string, readonly [string, string]>,
  { gap, half }: CombSpace,
): (Omit<CombSeat, 'at'> & { readonly point: Vec3 })[] {
  if (!inReach(one, h.run, h.radius)) return [];
  const own = { id: one.tube.id, run: h.run, radius: h.radius, direction: h.direction, point: h.point };
  const beside = all
    .filter((s) => s !== one)
    .flatMap((s) =>
      passes(s, h)
        .filter((p) => inReach(s, p.run, p.radius))
        .map((p) => ({ ...p, id: s.tube.id })),
    );
  const seats = [own];
  for (const p of beside.sort((a, b) => distance(a.point, h.point) - distance(b.point, h.point))) {
    const skins = seats.map((s) => distance(s.point, p.point) - s.radius - p.radius);
    if (Math.min(...skins) > CLOSE) continue;
    // a slanting tube takes up more of a thick comb
    const slant = half * Math.tan(Math.acos(Math.min(1, Math.abs(dot(p.direction, h.direction)))));
    if (Math.abs(dot(p.direction, h.direction)) < SQUARE || seats.some((s) => s.id === p.id)) continue;
    close.set(pairKey(own.id, p.id), own.id < p.id ? [own.id, p.id] : [p.id, own.id]);
    if (Math.min(...skins) > 2 * (gap + slant) + LEAST_TOOTH) seats.push(p);
  }
  return seats;
}

/** Where a tube crosses the plane across a heading. */
function passes(
  { tube, headings }: Sampled,
  h: Heading,
): { run: number; radius: number; direction: Vec3; point: Vec3 }[] {
  const side = (p: Vec3): number => dot(sub(p, h.point), h.direction);
  return headings.slice(1).flatMap((b, i) => {
    const a = headings[i]!;
    const [u, v] = [side(a.point), side(b.point)];
    if (u === v || u > 0 === v > 0) return [];
    let [low, high] = [a.run, b.run];
    for (let k = 0; k < 40; k++) {
      const middle = (low + high) / 2;
      if (side(headingAt(tube.path, middle).point) > 0 === u > 0) low = middle;
      else high = middle;
    }
    return [{ ...headingAt(tube.path, low), run: low, radius: Math.max(a.radius, b.radius) }];
  });
}

/** The place with the way its seats open that keeps them furthest apart across it; null where none leaves a tooth. */
function openedPlace(
  h: Heading,
  seats: readonly (Omit<CombSeat, 'at'> & { readonly point: Vec3 })[],
): CombPlace | null {
  const base = frameFacing(h.point, h.direction, sub(seats[1]!.point, seats[0]!.point));
  let best: { place: CombPlace; tooth: number } | null = null;
  for (let k = 0; k < 24; k++) {
    const frame = frameFacing(h.point, h.direction, rotateAbout(base.y, h.direction, (Math.PI * k) / 12));
    const placed = seats.map(({ point, ...s }): CombSeat => {
      const [x, y] = pointInto(frame, point);
      return { ...s, at: [x, y] };
    });
    const tooth = Math.min(
      ...placed.flatMap((a, i) => placed.slice(i + 1).map((b) => Math.abs(a.at[0] - b.at[0]) - a.radius - b.radius)),
    );
    if (best === null || tooth > best.tooth + 1e-6) best = { place: { frame, seats: placed }, tooth };
  }
  return best !== null && best.tooth >= LEAST_TOOTH + 3 ? best.place : null;
}

/** Nothing but the seated tubes where the comb is, nor in the way by which it comes on. */
function isFree({ frame, seats }: CombPlace, all: readonly Sampled[], space: CombSpace): boolean {
  const { half, obstacles, struts } = space;
  const reach = Math.max(...seats.map((s) => s.radius)) + REACH;
  const at = (s: CombSeat): Vec3 => along(along(frame.origin, frame.x, s.at[0]), frame.y, s.at[1]);
  const bones = seats.flatMap((a, i) => seats.slice(i + 1).map((b) => [at(a), at(b)] as const));
  const clear = (p: Vec3, radius: number): boolean =>
    Math.abs(dot(sub(p, frame.origin), frame.z)) >= half + radius + ROOM ||
    bones.every(([a, b]) => segmentApproach(p, p, a, b).distance >= reach + radius + ROOM);
  const passesFree = all.every(({ tube, headings }) => {
    const seat = seats.find((s) => s.id === tube.id);
    return headings.every(
      (h) => (seat !== undefined && Math.abs(h.run - seat.run) < 6 * h.radius) || clear(h.point, h.radius + STEP / 4),
    );
  });
  const strutsFree = struts.every(({ from, to, radius }) => {
    const count = Math.ceil(distance(from, to) / STEP);
    return Array.from({ length: count + 1 }, (_, i) => lerp(from, to, i / count)).every((p) =>
      clear(p, radius + 1 + STEP / 4),
    );
  });
  if (!passesFree || !strutsFree) return false;
  return obstacles.every((o) =>
    bones.every(([a, b]) => [0, 0.25, 0.5, 0.75, 1].every((t) => obstacleDistance(o, lerp(a, b, t)) > reach + ROOM)),
  );
}
