import { degrees, radians } from '../geometry/angle.js';
import { obstacleDistance } from '../geometry/space/obstacle.js';
import { along } from '../geometry/vec3.js';
import { lengthWords } from '../params/faults/wording.js';
import { gapLimit, pairKey, widest } from './limits.js';
import { tubesInWords } from './place-words.js';
import { type Joining, type KeptOut, type RouteProblem, type Runner, runInLength } from './problem.js';

/** Limits of a plan that are eased together: mostly one field of it. */
export interface Relaxable {
  readonly key: string;
  /** The plan's field and, where it holds for some tubes only, these. */
  readonly words: string;
  /** True when a plan can ease it: a head or a collector stands where it stands. */
  readonly eased: boolean;
  /** What it asks now, in its unit; null when it only is or is not. */
  readonly now: Amount | null;
  /** What the plan says when it is left out. */
  readonly without: string;
  /** The problem without it. A length is never left out: other lengths are tried. */
  readonly off: (problem: RouteProblem) => RouteProblem;
}

/** A limit that has a number. */
export interface Amount {
  readonly value: number;
  readonly unit: 'mm' | 'deg';
  /** The furthest it can be eased. */
  readonly most: number;
  /** To what it is told. */
  readonly grain: number;
  /** How much further it must be eased for so many mm of shortfall. */
  readonly perShort: number;
  readonly apply: (problem: RouteProblem, value: number) => RouteProblem;
}

/** To what a length is told, mm: of a plan in inches to the twentieth of an inch where others are told to the millimetre. */
const grainOf = ({ units }: RouteProblem, mm: number): number => (units === 'in' ? 1.27 * mm : mm);

/** A length in words, short. */
const said = ({ units = 'mm' }: RouteProblem, mm: number): string =>
  lengthWords(units === 'mm' ? Number(mm.toFixed(2)) : mm, units);

/** True for a tube from a collector's outlet. */
export const isSecondary = (runner: Runner): boolean => runner.name !== `cylinder ${runner.key}`;

/** Gap that tubes are left when all gaps are eased as far as can be, mm. */
const LEAST_CLEARANCE = 1;

/** Straights that are eased as far as can be, mm: with none, points may coincide and hide a turn back. */
const LEAST_STRAIGHT = 0.1;

/** No gap is ever this much negative, mm. */
const NO_GAP = -1e6;

/** The target lengths: of the primaries, of the secondaries. */
export function lengthsOf(problem: RouteProblem): Relaxable[] {
  return [false, true].flatMap((secondary) => {
    const mine = (r: Runner): boolean => isSecondary(r) === secondary && r.given === null;
    const first = problem.runners.find(mine);
    if (!first) return [];
    const words = secondary ? 'secondaries.length' : 'runners.length';
    const apply = (p: RouteProblem, target: number): RouteProblem => withRunners(p, mine, (r) => ({ ...r, target }));
    const now = {
      value: first.target,
      unit: 'mm',
      most: 2 * first.target,
      grain: grainOf(problem, 1),
      perShort: 1,
      apply,
    } as const;
    return [{ key: words, words, eased: true, now, without: `without ${words}`, off: (p: RouteProblem) => p }];
  });
}

/** Everything else that a plan limits, gaps between each two tubes apart. */
export function relaxablesOf(problem: RouteProblem): Relaxable[] {
  return [
    ...gaps(problem),
    ...problem.keptOut.map((k) => keptOut(problem, k)),
    ...straights(problem),
    ...angles(problem),
    ...steps(problem),
    ...problem.collectors.flatMap((c) => order(problem, c)),
    ...problem.runners.filter((r) => r.given).map(byHand),
    self(problem),
  ];
}

function numbered(key: string, words: string, now: Amount, off = now.most): Relaxable {
  return { key, words, eased: true, now, without: `without ${words}`, off: (p) => now.apply(p, off) };
}

/** The gap between each two tubes. */
function gaps(problem: RouteProblem): Relaxable[] {
  return problem.runners.flatMap((a, i) =>
    problem.runners.slice(i + 1).map((b) => {
      const key = pairKey(a, b);
      const apply = (p: RouteProblem, value: number): RouteProblem => ({
        ...p,
        pairClearance: new Map([...(p.pairClearance ?? []), [key, value]]),
      });
      const now = {
        value: gapLimit(problem, a, b),
        unit: 'mm',
        most: 0,
        grain: grainOf(problem, 0.1),
        perShort: -1,
        apply,
      } as const;
      const words = `runners.clearance between ${tubesInWords([a.name, b.name])}`;
      // only where the problem has gaps of pairs can the plan have given them
      return { ...numbered(`gap ${key}`, words, now, NO_GAP), eased: problem.pairClearance !== undefined };
    }),
  );
}

/** All gaps that the plan's clearance sets: between tubes, to heads and collectors, of a tube to itself. */
export function clearanceOf(problem: RouteProblem): Relaxable {
  const apply = (p: RouteProblem, clearance: number): RouteProblem => ({
    ...p,
    clearance,
    selfGap: Math.min(p.selfGap, clearance),
    keptOut: p.keptOut.map((k) => (isPlaced(k) ? { ...k, limit: Math.min(k.limit, clearance) } : k)),
    collectors: p.collectors.map((c, i) => withClearance(p, c, i, clearance)),
  });
  const value = problem.clearance;
  const now = { value, unit: 'mm', most: LEAST_CLEARANCE, grain: grainOf(problem, 0.1), perShort: -1, apply } as const;
  return numbered('clearance', 'runners.clearance', now);
}

/** A smaller clearance is met nearer to the inlets. */
function withClearance(problem: RouteProblem, c: Joining, index: number, clearance: number): Joining {
  const tube = problem.runners.find((r) => r.collector === index);
  if (!tube || c.inlets.length < 2) return c;
  const runIn = Math.min(c.runIn, runInLength(c.inlets, 2 * widest(tube), clearance));
  return { ...c, runIn, runInGap: Math.min(c.runInGap, clearance) };
}

/** True for what the plan does not list as kept out: its limit comes from other fields. */
const isPlaced = (k: KeptOut): boolean => !k.name.startsWith('keep-out ') && !k.name.startsWith('access to ');

function keptOut(problem: RouteProblem, k: KeptOut): Relaxable {
  const words = k.name.replace(/^keep-out (.*)$/, 'keep_out "$1"');
  const apply = (p: RouteProblem, limit: number): RouteProblem => ({
    ...p,
    keptOut: p.keptOut.map((o) => (o.name === k.name ? { ...o, limit } : o)),
  });
  const now = { value: k.limit, unit: 'mm', most: 0, grain: grainOf(problem, 0.1), perShort: -1, apply } as const;
  return {
    key: `kept-out ${k.name}`,
    words,
    eased: !isPlaced(k),
    now: !isPlaced(k) && k.limit > 0 ? now : null,
    without: `without ${words}`,
    off: (p) => ({ ...p, keptOut: p.keptOut.filter((o) => o.name !== k.name) }),
  };
}

function straights(problem: RouteProblem): Relaxable[] {
  const between = (p: RouteProblem, minStraight: number): RouteProblem => ({
    ...withRunners(p, isSecondary, (r) => ({ ...r, minFirst: Math.min(r.minFirst, minStraight) })),
    minStraight,
  });
  const inlet = (p: RouteProblem, minStraightInlet: number): RouteProblem => ({ ...p, minStraightInlet });
  const least = { unit: 'mm', most: LEAST_STRAIGHT, grain: grainOf(problem, 0.1), perShort: -1 } as const;
  return [
    ...straightAtPort(problem),
    numbered('straight', 'tube.min_straight', { ...least, value: problem.minStraight, apply: between }),
    numbered('straight inlet', 'tube.min_straight_inlet', { ...least, value: problem.minStraightInlet, apply: inlet }),
  ];
}

/** The least straight at the port, which the plan counts from the outer face of the flange. */
function straightAtPort(problem: RouteProblem): Relaxable[] {
  const primaries = problem.runners.filter((r) => !isSecondary(r));
  if (primaries.length === 0) return [];
  const value = Math.min(...primaries.map((r) => r.minFirst - flangeAlong(problem, r)));
  const isPrimary = (r: Runner): boolean => !isSecondary(r);
  const apply = (p: RouteProblem, now: number): RouteProblem =>
    withRunners(p, isPrimary, (r) => ({ ...r, minFirst: r.minFirst - (value - now) }));
  const least = { unit: 'mm', most: LEAST_STRAIGHT, grain: grainOf(problem, 0.1), perShort: -1 } as const;
  return value > LEAST_STRAIGHT
    ? [numbered('straight port', 'tube.min_straight_port', { ...least, value, apply })]
    : [];
}

/** Length of a tube within the flange, mm: until it leaves the head it starts on. */
function flangeAlong(problem: RouteProblem, { id, start }: Runner): number {
  const head = problem.keptOut.find((k) => k.startsOn.includes(id))?.obstacle;
  if (!head) return 0;
  const inside = obstacleDistance(head, start.origin);
  const gain = obstacleDistance(head, along(start.origin, start.z, 1)) - inside;
  return gain > 1e-6 ? Math.max(0, -inside / gain) : 0;
}

/** The largest angle of bent stock: one for every CLR of every size of tube. */
function angles(problem: RouteProblem): Relaxable[] {
  const found = new Map<string, Relaxable>();
  for (const runner of problem.runners) {
    const secondary = isSecondary(runner);
    runner.sections.forEach(({ stock }, section) => {
      for (const { clr, maxAngle } of stock) {
        const key = angleFamily(secondary, section, clr);
        if (maxAngle > Math.PI - 1e-6 || found.has(key)) continue;
        const field = secondary ? 'secondaries.bends' : section > 0 ? `tube.steps ${section} bends` : 'tube.bends';
        const now: Amount = {
          value: degrees(maxAngle),
          unit: 'deg',
          most: 180,
          grain: 1,
          perShort: degrees(1 / clr),
          apply: (p, value) => withAngle(p, secondary, section, clr, radians(value)),
        };
        found.set(key, numbered(key, `max_angle of ${field} clr ${said(problem, clr)}`, now));
      }
    });
  }
  return [...found.values()];
}

/** The family of the angles of bends of one CLR in one section of primaries or of the secondaries. */
export const angleFamily = (secondary: boolean, section: number, clr: number): string =>
  `angle ${secondary ? 'secondaries' : section} ${clr.toFixed(3)}`;

const withAngle = (p: RouteProblem, secondary: boolean, section: number, clr: number, maxAngle: number): RouteProblem =>
  withRunners(
    p,
    (r) => isSecondary(r) === secondary,
    (r) => ({
      ...r,
      sections: r.sections.map((s, i) => {
        if (i !== section) return s;
        return { ...s, stock: s.stock.map((b) => (Math.abs(b.clr - clr) < 1e-6 ? { ...b, maxAngle } : b)) };
      }),
    }),
  );

/** Where the joints of steps may fall. */
function steps(problem: RouteProblem): Relaxable[] {
  const stepped = problem.runners.find((r) => r.sections.length > 1);
  return (stepped?.sections.slice(1) ?? []).map((s, k) => {
    const apply = (p: RouteProblem, within: number): RouteProblem =>
      withRunners(
        p,
        () => true,
        (r) => ({
          ...r,
          sections: r.sections.map((x, i) => (i === k + 1 ? { ...x, within } : x)),
        }),
      );
    const now = {
      value: s.within,
      unit: 'mm',
      most: s.within + 300,
      grain: grainOf(problem, 1),
      perShort: 1,
      apply,
    } as const;
    return numbered(`step ${k + 1}`, `within of tube.steps ${k + 1}`, now, 1e5);
  });
}

/** The order in which tubes meet the inlets of a collector. */
function order(problem: RouteProblem, { name, allowed }: Joining): Relaxable[] {
  if (!allowed.orders || allowed.orders.length === 0) return [];
  const words = problem.collectors.length > 1 ? `order of collector ${name}` : 'collector.order';
  const free = (c: Joining): Joining => ({ ...c, allowed: { ...c.allowed, orders: null } });
  const off = (p: RouteProblem): RouteProblem => ({
    ...p,
    collectors: p.collectors.map((c) => (c.name === name ? free(c) : c)),
  });
  return [{ key: `order ${name}`, words, eased: true, now: null, without: `${words}: free`, off }];
}

/** A route given by hand; without it the tube keeps the inlet it held. */
function byHand({ id, name }: Runner): Relaxable {
  const words = `runners.routes of ${name}`;
  const off = (p: RouteProblem): RouteProblem =>
    withRunners(
      p,
      (r) => r.id === id,
      (r) => ({ ...r, given: null }),
    );
  return { key: `given ${id}`, words, eased: true, now: null, without: `without ${words}`, off };
}

function self(problem: RouteProblem): Relaxable {
  const off = (p: RouteProblem): RouteProblem => ({ ...p, selfGap: NO_GAP });
  const words = `gap of a tube to itself (${said(problem, problem.selfGap)}, by runners.clearance)`;
  return { key: 'self', words, eased: false, now: null, without: `without ${words}`, off };
}

const withRunners = (p: RouteProblem, which: (r: Runner) => boolean, change: (r: Runner) => Runner): RouteProblem => ({
  ...p,
  runners: p.runners.map((r) => (which(r) ? change(r) : r)),
});
