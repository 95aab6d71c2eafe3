import { type BrokenLimit, brokenLimits } from './broken-limits.js';
import type { Choice } from './choose.js';
import type { RouteProblem } from './problem.js';
import { type Amount, clearanceOf, lengthsOf, type Relaxable, relaxablesOf } from './relax.js';
import { lengthsToTry } from './relax-length.js';
import { attempt } from './relax-try.js';
import type { GoOn } from './search.js';

/** One change of the plan that alone lets a set of routes keep all other limits: such a set was found. */
export interface Relaxation {
  /** The plan's field; where nothing is counted, what to do with it. */
  readonly words: string;
  /** What the plan asks and what would do, in `unit`; null where nothing is counted. */
  readonly from: number | null;
  /** Value it would need; null where it is no number. */
  readonly to: number | null;
  /** Unit of the value; null without one. */
  readonly unit: 'mm' | 'deg' | null;
  readonly worked: true;
}

/** Relaxations that work, and a set that keeps every limit as planned should the tries come upon one. */
export interface Eased {
  readonly relaxations: readonly Relaxation[];
  readonly found: Choice | null;
}

/** Halvings between what does not do and what does; so many of them search anew. */
const HALVINGS = 6;
const ANEW = 3;

/** Rounds of a search anew, and of the one that must find a set at last, as it will when the plan is changed: few tubes take little. */
const roundsFor = ({ runners }: RouteProblem): number => (runners.length <= 2 ? 2 : 1);
const confirmingFor = (problem: RouteProblem): number => 1 + roundsFor(problem);

/** Limits tried beside those known to conflict when none of these alone does. */
const OTHERS = 4;

/** Eases one limit at a time, by no more than it takes, and tells which alone would do. */
export function easeOneByOne(
  problem: RouteProblem,
  nearest: Choice | null,
  conflict: readonly Relaxable[] | null,
  shortest: readonly number[],
  goOn: GoOn,
): Eased {
  const tries: Tries = { problem, known: nearest ? [nearest] : [], found: null, shortest: Math.max(...shortest), goOn };
  const broken = nearest ? brokenLimits(problem, nearest) : [];
  const all = [...lengthsOf(problem), ...relaxablesOf(problem)];
  const breaks = (f: Relaxable): boolean => broken.some((b) => b.family === f.key);
  const keys = new Set(conflict?.map((f) => f.key));
  const inConflict = all.filter((f) => (keys.size > 0 ? keys.has(f.key) : breaks(f) || isUnmeasured(f)));
  const first = withClearance(problem, inConflict);
  const relaxations = easeAll(first, tries, broken);
  if (relaxations.length === 0) {
    const others = withClearance(problem, all.filter(breaks)).filter((f) => first.every((x) => x.key !== f.key));
    relaxations.push(...easeAll(others.slice(0, OTHERS), tries, broken));
  }
  return { relaxations, found: tries.found };
}

interface Tries {
  readonly problem: RouteProblem;
  /** Sets of routes to start from: the nearest miss and whatever did with some limit eased. */
  readonly known: Choice[];
  found: Choice | null;
  readonly shortest: number;
  readonly goOn: GoOn;
}

const isLength = (f: Relaxable): boolean => f.key.endsWith('.length');

/** True for a limit that a nearest miss never shows as broken: it keeps them by construction. */
const isUnmeasured = (f: Relaxable): boolean => isLength(f) || /^(order|given) /.test(f.key);

/** True for a limit that comes down with `runners.clearance`. */
const byClearance = ({ key, eased }: { key: string; eased: boolean }): boolean =>
  key.startsWith('gap ') || key === 'self' || (key.startsWith('kept-out ') && !eased);

/** The limits, with the clearance of all gaps when some of those it sets are among them. */
function withClearance(problem: RouteProblem, families: readonly Relaxable[]): Relaxable[] {
  return families.some(byClearance) ? [...families, clearanceOf(problem)] : [...families];
}

function easeAll(families: readonly Relaxable[], tries: Tries, broken: readonly BrokenLimit[]): Relaxation[] {
  const relaxations: Relaxation[] = [];
  for (const f of families) {
    if (!f.eased || !tries.goOn() || tries.found) continue;
    if (isLength(f)) relaxations.push(...easeLength(f, f.now!, tries));
    else relaxations.push(...ease(f, tries, shortOf(f, broken)));
  }
  return relaxations;
}

/** By how much a limit is broken at worst, mm. */
function shortOf(f: Relaxable, broken: readonly BrokenLimit[]): number {
  const clearance = f.key === 'clearance';
  const mine = broken.filter(({ family }) =>
    clearance ? byClearance({ key: family, eased: /^kept-out (keep-out|access to) /.test(family) }) : family === f.key,
  );
  return Math.max(0, ...mine.map((b) => b.limit - b.value));
}

/** Shortfalls of the nearest miss by which a limit is eased in turn. */
const FURTHER = [1, 1.25, 2];

/** Tries one limit eased as far as it goes, or gone; where that does, eased by as little as does. */
function ease(f: Relaxable, tries: Tries, short: number): Relaxation[] {
  const { now } = f;
  const mayGo = now === null || f.key.startsWith('kept-out ');
  const most = mayGo ? f.off(tries.problem) : now.apply(tries.problem, now.most);
  const found = works(most, tries, true);
  if (!found || asPlanned(found, tries)) return [];
  if (now) {
    const enough = shortOf(f, brokenLimits(tries.problem, found));
    const amounts = [...FURTHER.map((part) => part * short), enough].flatMap((s) => easedBy(now, s) ?? []);
    amounts.sort((a, b) => now.perShort * (a - b));
    const does = [...amounts, now.most].find((value) => works(now.apply(tries.problem, value), tries, false));
    const told = does === undefined ? [] : least(f, now, now.value, does, tries);
    if (told.length > 0) return told;
  }
  const gone = { words: f.without, from: null, to: null, unit: null, worked: true } as const;
  return mayGo && confirmed(most, tries) ? [gone] : [];
}

/** Tries longer targets, then shorter ones. */
function easeLength(f: Relaxable, now: Amount, tries: Tries): Relaxation[] {
  return (['longer', 'shorter'] as const).flatMap((which) => {
    let failed = now.value;
    for (const [i, value] of lengthsToTry(now, tries.shortest, which).entries()) {
      const anew = i % 2 === 1;
      const found = works(now.apply(tries.problem, value), tries, anew);
      if (found) return asPlanned(found, tries) ? [] : least(f, now, failed, value, tries);
      if (anew) failed = value;
    }
    return [];
  });
}

/** A set of routes of an eased problem, known ones led over or, if `anew`, searched for. */
function works(problem: RouteProblem, tries: Tries, anew: boolean): Choice | null {
  const found = attempt(problem, tries.known, anew ? roundsFor(problem) : 0, tries.goOn);
  if (found) tries.known.unshift(found);
  return found;
}

/** True when what was found with a limit eased leads to a set that keeps it as planned. */
function asPlanned(found: Choice, tries: Tries): boolean {
  tries.found ??= attempt(tries.problem, [found], 0, tries.goOn);
  return tries.found !== null;
}

/** The amount eased by a shortfall and told to its grain; null when that is nothing or further than it goes. */
function easedBy(now: Amount, short: number): number | null {
  if (short <= 0) return null;
  const value = onGrain(now, now.value + now.perShort * short);
  return (now.most - value) * (now.most - now.value) < 0 ? null : value;
}

/** On the grain, to the eased side. */
function onGrain(now: Amount, value: number): number {
  const to = now.most > now.value ? Math.ceil : Math.floor;
  return Number((to(value / now.grain + (now.most > now.value ? -1e-9 : 1e-9)) * now.grain).toFixed(6));
}

/** The least easing that does, by halving between one that does not and one that does; none when no search finds it anew. */
function least(f: Relaxable, now: Amount, failed: number, does: number, tries: Tries): Relaxation[] {
  let [bad, good] = [failed, does];
  for (let i = 0; i < HALVINGS && tries.goOn(); i++) {
    const middle = between(now, bad, good);
    if (middle === good || middle === bad) break;
    if (works(now.apply(tries.problem, middle), tries, i < ANEW)) good = middle;
    else bad = middle;
  }
  const surer = isLength(f) ? does : now.most;
  const middle = between(now, good, surer);
  const amounts = [good, between(now, good, middle), middle, between(now, middle, surer), surer];
  const to = [...new Set(amounts)].find((value) => confirmed(now.apply(tries.problem, value), tries));
  if (to === undefined) return [];
  return [{ words: f.words, from: Number(now.value.toFixed(3)), to, unit: now.unit, worked: true }];
}

/** Halfway between two amounts, on the grain, to the side of the second. */
function between(now: Amount, a: number, b: number): number {
  const raw = (a + b) / 2 / now.grain;
  const middle = Number(((b > a ? Math.ceil(raw - 1e-9) : Math.floor(raw + 1e-9)) * now.grain).toFixed(6));
  return Math.abs(middle - a) < now.grain / 2 ? a : Math.abs(middle - b) < now.grain / 2 ? b : middle;
}

/** True when the search finds a set without knowing one. */
const confirmed = (problem: RouteProblem, tries: Tries): boolean =>
  attempt(problem, [], confirmingFor(problem), tries.goOn) !== null;
