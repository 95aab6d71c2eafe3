import { stringify } from 'yaml';
import type { Frame } from '../../src/geometry/frame.js';
import type { ControlPolygon } from '../../src/geometry/path/control-polygon.js';
import type { Vec3 } from '../../src/geometry/vec3.js';
import type { KeepOut, Plan } from '../../src/params/plan.js';
import { readPlan } from '../../src/params/read-plan.js';
import { problemOf } from '../../src/routing/problem.js';
import { type Random, seededRandom } from '../../src/routing/random.js';
import { keepOutDistance, type OwnSpace, spaceOf } from './dense-space.js';
import { type DenseTube, denseGap, denseTube, inner, minus, plus, pointAt, times, tubeShape } from './dense-tube.js';
import { leastFirst, ringInlets, routeFaults, shapeFaults } from './route-faults.js';

/** open: nothing but head and collector; beside: keep-outs near the routes; tight: walls and many keep-outs close round them. */
export type LayoutKind = 'open' | 'beside' | 'tight';

/** A layout that is known to be solvable, because it was built round routes that solve it. */
export interface BackwardLayout {
  readonly seed: number;
  readonly kind: LayoutKind;
  /** The plan as a user would write it. */
  readonly yaml: string;
  readonly plan: Plan;
  /** The routes it was built round, by cylinder. */
  readonly witness: ReadonlyMap<number, ControlPolygon>;
}

/** What a witness keeps beyond the plan's gaps, mm: points measure gaps a little too wide. */
const SPARE = 0.1;

/**
 * A random layout, the same for the same seed: ports, a collector, then random routes between them, then keep-outs in the space the
 * routes leave free. The routes come from rejection: random polygons, each stretched to the first one's length by bisection and
 * dropped when it breaks a limit. Nothing of the router takes part.
 */
export function backwardLayout(seed: number): BackwardLayout {
  for (let attempt = 0; ; attempt++) {
    const random = seededRandom(seed * 100_003 + attempt);
    const layout = tryLayout(seed, random);
    if (layout) return layout;
  }
}

/** Of every twenty layouts eight are open, seven have keep-outs beside and five are tight. */
export const kindOf = (seed: number): LayoutKind => (seed % 20 < 8 ? 'open' : seed % 20 < 15 ? 'beside' : 'tight');

function tryLayout(seed: number, random: Random): BackwardLayout | null {
  const bare = bareFile(seed, random);
  const plan = planOf(bare, seed);
  const first = firstTube(plan, random);
  if (!first) return null;
  const target = Math.round(first.length * 10) / 10;
  const runners = { ...(bare.runners as object), length: target };
  const aimed = planOf({ ...bare, runners }, seed);
  const witness = witnessOf(aimed, random);
  if (!witness) return null;
  const kind = kindOf(seed);
  const keepOuts = kind === 'open' ? [] : keepOutsBeside(aimed, [...witness.values()], kind, random);
  if (!keepOuts) return null;
  const yaml = stringify({ ...bare, runners, ...(keepOuts.length > 0 ? { keep_out: keepOuts } : {}) });
  const whole = readPlan(yaml, `seed-${seed}.yaml`);
  if (!whole.ok) return null;
  const polygons = new Map([...witness].map(([c, t]) => [c, t.polygon]));
  if (routeFaults(whole.plan, polygons, { ends: 1e-6, gaps: 0 }).length > 0) return null;
  return { seed, kind, yaml, plan: whole.plan, witness: polygons };
}

type PlanFileText = Record<string, unknown>;

function planOf(file: PlanFileText, seed: number): Plan {
  const read = readPlan(stringify(file), `seed-${seed}.yaml`);
  if (!read.ok) throw new Error(read.text);
  return read.plan;
}

const FIRING: Readonly<Record<number, readonly number[]>> = {
  2: [1, 2],
  3: [1, 3, 2],
  4: [1, 3, 4, 2],
  5: [1, 2, 4, 5, 3],
  6: [1, 5, 3, 6, 2, 4],
};

const COUNTS = [2, 2, 2, 2, 3, 3, 3, 3, 3, 4, 4, 4, 4, 4, 4, 4, 4, 4, 5, 6] as const;
const TUBES = [
  { od: 38, wall: 1.5, bends: [{ clr: 57, max_angle: 180, leg: 50 }] },
  { od: 42.4, wall: 1.6, bends: [{ clr: 63.5, max_angle: 180, leg: 60 }] },
  {
    od: 42.4,
    wall: 1.6,
    bends: [
      { clr: 63.5, max_angle: 180, leg: 60 },
      { clr: 48, max_angle: 180, leg: 50 },
    ],
  },
  { od: 45, wall: 1.5, bends: [{ clr: 67.5, max_angle: 180, leg: 60 }] },
] as const;

/** Number of primaries: by the seed alone, since layouts with more of them are given up more often and would become rare. */
export const tubesOf = (seed: number): number => COUNTS[Math.floor(seededRandom(seed)() * COUNTS.length)]!;

/** A plan without keep-outs and with a length that is still to be set. */
function bareFile(seed: number, random: Random): PlanFileText {
  const between = (lo: number, hi: number, unit = 0.1): number => Math.round((lo + (hi - lo) * random()) / unit) * unit;
  const tidy = (x: number): number => Number(x.toFixed(4));
  const pick = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)]!;
  const count = tubesOf(seed);
  const tube = pick(TUBES);
  const pitch = tidy(between(tube.od + 42, tube.od + 68));
  const middle = (pitch * (count - 1)) / 2;
  const gap = tidy(between(3, 7));
  const halfAngle = tidy(between(5, 12));
  const clearance = tidy(between(5, 9));
  const direction =
    random() < 0.7
      ? [between(-0.6, 0.6), -1, between(-0.4, 0.4)]
      : [pick([-1, 1]), between(-0.7, -0.1), between(-0.3, 0.4)];
  const alike = random() < 0.5 ? [between(-0.15, 0.15, 0.01), between(-0.35, 0.15, 0.01), 1] : null;
  return {
    evenrun: 1,
    name: `layout ${seed}`,
    units: 'mm',
    engine: { cylinders: count, layout: 'inline', firing_order: [...FIRING[count]!], bore: 84, stroke: 86 },
    head: {
      ports: Array.from({ length: count }, (_, i) => ({
        cylinder: i + 1,
        at: [tidy(i * pitch), 0],
        direction: (alike ?? [between(-0.15, 0.15, 0.01), between(-0.35, 0.15, 0.01), 1]).map(tidy),
        shape: { kind: 'round', diameter: tube.od - 4 },
      })),
      bolts: [-1, ...Array.from({ length: count }, (_, i) => i)].map((i) => ({
        at: [tidy((i + 0.5) * pitch), i % 2 === 0 ? 12 : -12],
        thread: 'M8',
      })),
    },
    flange: { thickness: 10, material: 'mild steel' },
    tube: { material: '304 stainless', ...tube },
    collector: {
      at: [middle + between(-140, 140), between(-400, -170), between(70, 240)].map(tidy),
      direction: direction.map(tidy),
      clocking: between(0, 360, 1),
      gap,
      merge_half_angle: halfAngle,
      order: 'free',
      outlet: { od: Math.round(tube.od * (1 + 0.12 * count)), wall: 1.6, cone_length: 90, tail: 40 },
    },
    runners: { length: 700, spread: 1, clearance, seed: (seed % 1000) + 1 },
    access: { bolts: false, plugs: false },
    jig: { bed: [210, 210, 210] },
  };
}

/** How many random polygons a tube gets before the layout is given up. */
const TRIALS = 500;

/** A first tube from some port to some inlet, that keeps its own limits: its length is what all get. */
function firstTube(plan: Plan, random: Random): { length: number } | null {
  for (let i = 0; i < TRIALS; i++) {
    const port = plan.ports[Math.floor(random() * plan.ports.length)]!;
    const inlets = ringInlets(plan, 0);
    const tube = randomTube(plan, port.cylinder, inlets[Math.floor(random() * inlets.length)]!, null, random);
    if (tube && tube.length > 380 && tube.length < 1050) return tube;
  }
  return null;
}

/** Routes of one length for every port, clear of each other. */
function witnessOf(plan: Plan, random: Random): Map<number, DenseTube> | null {
  const inlets = ringInlets(plan, 0);
  const free = new Set(inlets);
  const tubes = new Map<number, DenseTube>();
  const order = plan.ports.map((p) => ({ p, key: random() })).sort((a, b) => a.key - b.key);
  for (const { p } of order) {
    let found = false;
    for (let i = 0; i < TRIALS && !found; i++) {
      const inlet = [...free][Math.floor(random() * free.size)]!;
      const tube = randomTube(plan, p.cylinder, inlet, plan.runners.length, random);
      if (!tube || ![...tubes.values()].every((t) => clearOf(plan, t, tube))) continue;
      tubes.set(p.cylinder, tube);
      free.delete(inlet);
      found = true;
    }
    if (!found) return null;
  }
  return tubes;
}

/** Spacing of points for quick rejection, mm. */
const COARSE = 8;

/** A random polygon from a port to an inlet that keeps its own limits; of the given length when one is given. */
function randomTube(
  plan: Plan,
  cylinder: number,
  inlet: Frame,
  target: number | null,
  random: Random,
): DenseTube | null {
  const port = plan.ports.find((p) => p.cylinder === cylinder)!.frame;
  const { bends } = plan.tube;
  const count = random() < 0.45 ? 1 : random() < 0.8 ? 2 : target === null ? 0 : 3;
  const clr = Array.from({ length: count + 2 }, () => (random() < 0.8 ? bends[0]! : bends[bends.length - 1]!).clr);
  const leg = (least: number, r: number): number =>
    least + r * (0.25 + random()) - 60 * Math.log(1 - random()) * random();
  const a = plus(port.origin, port.z, leg(leastFirst(plan, cylinder), clr[0]!));
  const b = plus(inlet.origin, inlet.z, -leg(plan.tube.minStraightInlet, clr[count + 1]!));
  const on = Array.from({ length: count }, (_, i) => plus(a, minus(b, a), (i + 1) / (count + 1)));
  const off = on.map((): Vec3 => [spread(random), spread(random), spread(random)]);
  const polygonAt = (t: number): ControlPolygon => ({
    points: [port.origin, a, ...on.map((p, i) => plus(p, off[i]!, t)), b, inlet.origin],
    clr,
  });
  const t = target === null ? 1 : scaleFor(target, polygonAt);
  if (t === null) return null;
  const polygon = polygonAt(t);
  const shape = tubeShape(polygon);
  if (shape.angles.some((x) => x > 2.7)) return null;
  if (shapeFaults(plan, cylinder, { ...shape, polygon }).length > 0) return null;
  const tube = denseTube(polygon, COARSE);
  return clearOfOwnSpace(plan, cylinder, tube) ? tube : null;
}

const spread = (random: Random): number => 260 * (random() + random() + random() - 1.5);

/** The stretch of the inner points at which a polygon has the length, by bisection; null when it does not bracket it. */
function scaleFor(target: number, polygonAt: (t: number) => ControlPolygon): number | null {
  const excess = (t: number): number => tubeShape(polygonAt(t)).length - target;
  let lo = 0;
  let hi = 2.5;
  if (!(excess(lo) < 0 && excess(hi) > 0)) return null;
  while (hi - lo > 1e-14) {
    const middle = (lo + hi) / 2;
    if (middle === lo || middle === hi) break;
    if (excess(middle) < 0) lo = middle;
    else hi = middle;
  }
  return (lo + hi) / 2;
}

function clearOfOwnSpace(plan: Plan, cylinder: number, tube: DenseTube): boolean {
  const r = plan.tube.od / 2;
  for (const space of demandsOf(plan).space) {
    const gaps = Array.from(tube.run, (_, i) => space.distance(pointAt(tube, i)) - r);
    if (space.ends.includes(cylinder)) gaps.reverse();
    const away = gaps.findIndex((g) => g >= space.limit + SPARE);
    if (away < 0) return false;
    for (let i = 1; i < away; i++) if (gaps[i]! < gaps[i - 1]! - 1e-6) return false;
    for (let i = away; i < gaps.length; i++) if (gaps[i]! < space.limit + SPARE) return false;
  }
  const od = plan.tube.od;
  return (
    denseGap(
      tube,
      tube,
      () => r,
      (p, q) => q - p > 3 * od,
    ) >
    Math.min(plan.runners.clearance, od / 4) + SPARE
  );
}

function clearOf(plan: Plan, a: DenseTube, b: DenseTube): boolean {
  const { runIn } = demandsOf(plan);
  const main = (ra: number, rb: number): boolean => a.length - ra >= runIn || b.length - rb >= runIn;
  const limit = plan.runners.clearance + 0.5;
  return denseGap(a, b, () => plan.tube.od / 2, main, limit) > limit;
}

interface Demands {
  readonly space: readonly OwnSpace[];
  readonly runIn: number;
}

const known = new WeakMap<Plan, Demands>();

/** What all trials of a plan ask for, worked out once. */
function demandsOf(plan: Plan): Demands {
  const before = known.get(plan);
  if (before) return before;
  const demands = { space: spaceOf(plan), runIn: problemOf(plan, undefined, []).collectors[0]!.runIn };
  known.set(plan, demands);
  return demands;
}

type KeepOutText = Record<string, unknown> & { kind: string };

/** Keep-outs set into the space that the routes leave free; null when they find no room. */
function keepOutsBeside(
  plan: Plan,
  tubes: readonly DenseTube[],
  kind: LayoutKind,
  random: Random,
): KeepOutText[] | null {
  const close = tubes.map((t) => denseTube(t.polygon, 3));
  const wanted = kind === 'beside' ? 3 + Math.floor(random() * 3) : 7 + Math.floor(random() * 5);
  const set: KeepOutText[] = kind === 'tight' ? walls(plan, close, 2 + Math.floor(random() * 2), random) : [];
  const total = set.length + wanted;
  for (let i = 0; i < 400 && set.length < total; i++) {
    const text = solidBeside(plan, close, set.length + 1, kind, random);
    if (text) set.push(text);
  }
  return set.length === total ? set : null;
}

const round = (p: Vec3): Vec3 => [Number(p[0].toFixed(1)), Number(p[1].toFixed(1)), Number(p[2].toFixed(1))];

/** A box, bar or capsule near a random place of a random tube. */
function solidBeside(
  plan: Plan,
  tubes: readonly DenseTube[],
  number: number,
  kind: LayoutKind,
  random: Random,
): KeepOutText | null {
  const tube = tubes[Math.floor(random() * tubes.length)]!;
  const near = pointAt(tube, Math.floor(random() * tube.run.length));
  const way = direction(random);
  const clearance = Math.round(5 + 10 * random());
  const off = plan.tube.od / 2 + clearance + (kind === 'tight' ? 8 : 45) * random();
  const name = `part ${number}`;
  let text: KeepOutText;
  let keepOut: KeepOut;
  if (random() < 0.5) {
    const half: Vec3 = [10 + 40 * random(), 10 + 40 * random(), 10 + 40 * random()];
    const reach = Math.min(...half.map((h, i) => h / Math.max(1e-3, Math.abs(way[i]!))));
    const centre = plus(near, way, off + reach);
    const [from, to] = [round(minus(centre, half)), round(plus(centre, half))];
    text = { name, kind: 'box', from, to, clearance };
    keepOut = { name, kind: 'box', from, to, clearance, heat: false };
  } else {
    const diameter = Math.round(10 + 40 * random());
    const middle = plus(near, way, off + diameter / 2);
    const axis = direction(random);
    const half = 30 + 150 * random();
    const [from, to] = [round(plus(middle, axis, -half)), round(plus(middle, axis, half))];
    const shape = random() < 0.5 ? 'cylinder' : 'capsule';
    text = { name, kind: shape, from, to, diameter, clearance };
    keepOut = { name, kind: shape, from, to, diameter, clearance, heat: false };
  }
  return leastGap(keepOut, tubes, plan.tube.od / 2) >= clearance + SPARE + 0.1 ? text : null;
}

/** Planes square to the axes that close the bay in round the routes. */
function walls(plan: Plan, tubes: readonly DenseTube[], count: number, random: Random): KeepOutText[] {
  const sides: Vec3[] = [
    [1, 0, 0],
    [-1, 0, 0],
    [0, -1, 0],
    [0, 0, -1],
  ];
  const collector = plan.collectors[0]!.frame.origin;
  return sides
    .map((normal) => ({ normal, key: random() }))
    .sort((a, b) => a.key - b.key)
    .slice(0, count)
    .map(({ normal }, i) => {
      const clearance = Math.round(5 + 8 * random());
      const room = 1 + 15 * random();
      let nearest = inner(collector, normal);
      for (const t of tubes)
        for (let k = 0; k < t.run.length; k++) nearest = Math.min(nearest, inner(pointAt(t, k), normal));
      const height = Math.floor(nearest - plan.tube.od / 2 - clearance - SPARE - room);
      return { name: `wall ${i + 1}`, kind: 'half_space', point: round(times(normal, height)), normal, clearance };
    });
}

function leastGap(k: KeepOut, tubes: readonly DenseTube[], r: number): number {
  const distance = keepOutDistance(k);
  let best = Number.POSITIVE_INFINITY;
  for (const t of tubes) for (let i = 0; i < t.run.length; i++) best = Math.min(best, distance(pointAt(t, i)) - r);
  return best;
}

function direction(random: Random): Vec3 {
  for (;;) {
    const v: Vec3 = [2 * random() - 1, 2 * random() - 1, 2 * random() - 1];
    const l = Math.hypot(...v);
    if (l > 0.1 && l < 1) return times(v, 1 / l);
  }
}
