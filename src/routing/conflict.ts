import { type BrokenLimit, brokenLimits } from './broken-limits.js';
import type { Choice } from './choose.js';
import type { RouteProblem } from './problem.js';
import { lengthsOf, type Relaxable, relaxablesOf } from './relax.js';
import { lengthsToTry } from './relax-length.js';
import { attempt, choicePart, partOf } from './relax-try.js';
import type { GoOn } from './search.js';

/** Tubes, and pairs of tubes, that are looked at alone for a conflict of their own. */
const LOOKED_AT = 4;

/** How often the limits are sifted, should sets of routes found on the way show that what was left did not conflict; each time with more work. */
const AGAIN = 3;

/** Rounds of search by which a few tubes are first called impossible: to do so where there is a way would mislead. */
const SURE = 2;

/**
 * A smallest set of limits that no set of routes keeps, as far as the search can tell: with any one of them gone, and every limit
 * outside the set gone already, it finds one. Empty when no such set can be told, null when time ended first.
 */
export function conflictOf(
  problem: RouteProblem,
  nearest: Choice | null,
  shortest: readonly number[],
  goOn: GoOn,
): readonly Relaxable[] | null {
  const broken = nearest ? brokenLimits(problem, nearest) : [];
  for (const tubes of fewTubes(problem, nearest, broken, shortest)) {
    const part = partOf(problem, tubes);
    const known = nearest ? [choicePart(part, nearest, tubes)] : [];
    const possible = (p: RouteProblem, rounds: number): boolean => {
      const found = attempt(p, known, rounds, goOn);
      if (found) known.push(found);
      return found !== null;
    };
    const whole = tubes.length === problem.runners.length;
    if (!whole && possible(part, SURE)) continue;
    const conflict = conflictWithin(part, broken, Math.max(...tubes.map((t) => shortest[t]!)), possible);
    if (!goOn()) return null;
    if (conflict) return conflict;
  }
  return [];
}

/** The conflict of a few tubes; null when there is none after all, or none that can be told. */
function conflictWithin(
  part: RouteProblem,
  broken: readonly BrokenLimit[],
  shortest: number,
  possible: (p: RouteProblem, rounds: number) => boolean,
): readonly Relaxable[] | null {
  const families = inOrder(relaxablesOf(part), broken);
  const suspects = families.filter((f) => broken.some((b) => b.family === f.key));
  const without = (kept: readonly Relaxable[]): RouteProblem =>
    families.reduce((p, f) => (kept.includes(f) ? p : f.off(p)), part);
  for (let rounds = 1; rounds <= AGAIN; rounds++) {
    const conflicts = (kept: readonly Relaxable[]): boolean => !possible(without(kept), rounds);
    const needed = minimalConflict(conflicts(suspects) ? suspects : families, conflicts);
    if (!needed) continue;
    const rest = without(needed);
    const binds = lengthsOf(part).filter((length) =>
      lengthsToTry(length.now!, shortest, 'few').some((value) => possible(length.now!.apply(rest, value), rounds)),
    );
    if (binds.length + needed.length > 0) return [...binds, ...needed];
  }
  return null;
}

/** Those that the nearest miss breaks first, worst first. */
function inOrder(families: readonly Relaxable[], broken: readonly BrokenLimit[]): Relaxable[] {
  const rank = (f: Relaxable): number => {
    const at = broken.findIndex((b) => b.family === f.key);
    return at < 0 ? broken.length : at;
  };
  return [...families].sort((a, b) => rank(a) - rank(b));
}

/** Tubes that may have no way even without the others: one, two that come too near each other, all of the nearest miss; at last all. */
function fewTubes(
  problem: RouteProblem,
  nearest: Choice | null,
  broken: readonly BrokenLimit[],
  shortest: readonly number[],
): readonly (readonly number[])[] {
  const all = problem.runners.map((_, i) => i);
  const tooShort = all.filter((i) => shortest[i]! > problem.runners[i]!.target);
  const own = broken.filter((b) => b.tubes.length === 1).map((b) => b.tubes[0]!);
  const singles = [...new Set([...tooShort, ...own, ...(nearest ? [] : all)])].slice(0, LOOKED_AT).map((t) => [t]);
  const ordered = broken.filter((b) => b.tubes.length === 2).map((b) => [...b.tubes].sort((x, y) => x - y));
  const pairs = [...new Map(ordered.map((p) => [p.join(), p])).values()].slice(0, LOOKED_AT);
  const involved = all.filter((i) => broken.some((b) => b.tubes.includes(i)));
  const some = involved.length > 2 ? [involved] : [];
  return [...[...singles, ...pairs, ...some].filter((tubes) => tubes.length < all.length), all];
}

/**
 * A minimal subset that is in conflict, found by leaving out ever smaller parts, the last first (deletion filter; Chinneck and
 * Dravnieks, 1991; in parts as in delta debugging; Zeller, 2002). `conflicts` may err towards yes and learn better: null when it
 * takes back that what is left, or the whole, is in conflict.
 */
export function minimalConflict<T>(all: readonly T[], conflicts: (kept: readonly T[]) => boolean): readonly T[] | null {
  let kept = all;
  for (let size = all.length; size >= 1; size = Math.floor(Math.min(size, kept.length) / 2)) {
    for (let end = kept.length; end > 0; end -= size) {
      const others = [...kept.slice(0, Math.max(0, end - size)), ...kept.slice(end)];
      if (conflicts(others)) kept = others;
    }
  }
  return conflicts(kept) ? kept : null;
}
