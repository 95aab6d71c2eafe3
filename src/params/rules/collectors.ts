import { directionFrom, pointInto } from '../../geometry/frame.js';
import { LENGTH_TOLERANCE } from '../../geometry/tolerance.js';
import type { PlanFault } from '../faults/plan-problem.js';
import { lengthWords, show, tidy } from '../faults/wording.js';
import { MOST_INLETS } from '../limits.js';
import { feedsAnother, type PlacedCollector, placedCollectors, placedInlets } from '../resolve/collectors.js';
import type { Draft } from '../resolve/draft.js';
import { type PlacedHead, placedHeads } from '../resolve/heads.js';
import { bodyOf } from '../resolve/plan.js';
import { placedPorts } from '../resolve/ports.js';
import { lastSize } from '../resolve/tubes.js';
import type { LengthUnit } from '../units.js';

/** Collectors against ports and heads: every port's cylinder in one collector, inlets and order that fit, a place outside the metal. */
export function collectorRules(draft: Draft): PlanFault[] {
  const { sections } = draft;
  const heads = placedHeads(sections);
  const ported = placedPorts(heads).map((p) => p.port.cylinder);
  const collectors = placedCollectors(sections, ported);
  const headsKnown = heads.length > 0;
  return [
    ...(headsKnown ? collectors.flatMap((c) => cylindersOf(c, ported)) : []),
    ...(headsKnown && collectors.length > 0 ? left(collectors, ported) : []),
    ...collectors.flatMap((_, i) => [...taken(collectors, i), ...namesake(collectors, i)]),
    ...collectors.flatMap((c) => (placedInlets(c) === 0 ? [] : inlets(c))),
    ...collectors.flatMap((c) => inMetal(c, heads, sections.units ?? 'mm')),
    ...collectors.flatMap((c) => outlet(c, collectors, sections)),
    ...collectors.flatMap((c) => fixedByRoutes(c, sections)),
  ];
}

const cylindersPath = (c: PlacedCollector) => [...c.path, 'cylinders'];

function cylindersOf(c: PlacedCollector, ported: readonly number[]): PlanFault[] {
  const faults: PlanFault[] = [];
  if (c.section.cylinders === undefined && c.cylinders.length > MOST_INLETS) {
    const message = `a collector joins at most ${MOST_INLETS} primaries and there are ${c.cylinders.length} ports; take a list of collectors`;
    faults.push({ path: c.path, atKey: true, message });
  }
  (c.section.cylinders ?? []).forEach((cylinder, i, all) => {
    const path = [...cylindersPath(c), i];
    if (all.indexOf(cylinder) !== i) faults.push({ path, message: `cylinder ${cylinder} is listed twice` });
    else if (!ported.includes(cylinder)) {
      faults.push({
        path,
        message: `cylinder ${cylinder} has no port; the ports are of cylinders ${ported.join(', ')}`,
      });
    }
  });
  return faults;
}

function left(collectors: readonly PlacedCollector[], ported: readonly number[]): PlanFault[] {
  const missing = ported.filter((p) => !collectors.some((c) => c.cylinders.includes(p)));
  if (missing.length === 0) return [];
  const last = collectors.findLast((c) => c.section.cylinders !== undefined) ?? collectors.at(-1)!;
  const path = last.section.cylinders === undefined ? last.path : cylindersPath(last);
  return [{ path, message: `no collector takes cylinder ${missing.join(', ')}; every port needs one` }];
}

function taken(collectors: readonly PlacedCollector[], i: number): PlanFault[] {
  const c = collectors[i]!;
  return (c.section.cylinders ?? []).flatMap((cylinder, k): PlanFault[] => {
    const earlier = collectors.slice(0, i).find((other) => other.cylinders.includes(cylinder));
    if (earlier === undefined) return [];
    return [
      {
        path: [...cylindersPath(c), k],
        message: `cylinder ${cylinder} is in the collector ${show(earlier.name)} already`,
      },
    ];
  });
}

function namesake(collectors: readonly PlacedCollector[], i: number): PlanFault[] {
  const { name, path } = collectors[i]!;
  if (collectors.findIndex((c) => c.name === name) === i) return [];
  return [
    { path: [...path, 'name'], message: `the name ${show(name)} is taken by an earlier collector; each needs its own` },
  ];
}

function inlets(c: PlacedCollector): PlanFault[] {
  const faults: PlanFault[] = [];
  const { merge_half_angle: half, order } = c.section;
  const count = placedInlets(c);
  if (count === 1 && half !== undefined && half > 0) {
    faults.push({
      path: [...c.path, 'merge_half_angle'],
      message: 'a single inlet runs straight in: give 0 or leave it out',
    });
  }
  if (count > 1 && half === 0) {
    const message = `${count} inlets at 0 degrees never merge: expected an angle over 0 and up to 30 degrees`;
    faults.push({ path: [...c.path, 'merge_half_angle'], message });
  }
  return [...faults, ...orderFaults(c, order)];
}

function orderFaults(c: PlacedCollector, order: PlacedCollector['section']['order']): PlanFault[] {
  const path = [...c.path, 'order'];
  if (c.from.length > 0) {
    if (order === 'firing') {
      const message = 'a collector fed by others has no firing order: take free, or a list of their names';
      return [{ path, message }];
    }
    if (typeof order === 'string' || sameMembers(order, c.from)) return [];
    const names = c.from.map(show).join(', ');
    return [{ path, message: `expected each collector of from once (${names}), found ${show(order)}` }];
  }
  if (typeof order === 'string' || sameMembers(order, c.cylinders)) return [];
  const message = `expected each cylinder of this collector once (${c.cylinders.join(', ')}), found ${show(order)}`;
  return [{ path, message }];
}

const sameMembers = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && new Set(a).size === a.length && a.every((v) => b.includes(v));

function inMetal(c: PlacedCollector, heads: readonly PlacedHead[], units: LengthUnit): PlanFault[] {
  return heads.flatMap(({ frame, name, section }): PlanFault[] => {
    const [x, y, z] = pointInto(frame, c.section.at);
    if (z > 0) return [];
    if (section.body !== undefined) {
      const { from, to, depth } = bodyOf(section.body);
      if (z < -depth || x < from[0] || x > to[0] || y < from[1] || y > to[1]) return [];
    }
    const away = directionFrom(frame, [0, 0, 1]).map(tidy).join(', ');
    const where = section.body === undefined ? 'behind the face' : 'inside the body';
    const message = `the inlet plane's centre lies ${lengthWords(-z, units)} ${where} of ${show(name)}; move it along [${away}]`;
    return [{ path: [...c.path, 'at'], message }];
  });
}

function outlet(
  c: PlacedCollector,
  all: readonly PlacedCollector[],
  { tube, secondaries, units = 'mm' }: Draft['sections'],
): PlanFault[] {
  const joining = c.from.length > 0 ? secondaries : tube && lastSize(tube);
  if (joining === undefined) return [];
  const leaving = feedsAnother(c, all) ? secondaries : undefined;
  const { od, wall = (leaving ?? joining).wall } = c.section.outlet;
  const words = (mm: number) => lengthWords(mm, units);
  const odPath = [...c.path, 'outlet', 'od'];
  if (leaving !== undefined && Math.abs(od - leaving.od) > LENGTH_TOLERANCE) {
    const message = `a secondary leaves from this outlet: expected its size (secondaries.od ${words(leaving.od)}), found ${words(od)}`;
    return [{ path: odPath, message }];
  }
  if (od < joining.od) {
    const what = c.from.length > 0 ? 'the secondaries' : 'the tube';
    return [
      {
        path: odPath,
        message: `expected an outlet no smaller than ${what} (${words(joining.od)}), found ${words(od)}`,
      },
    ];
  }
  if (wall < od / 2) return [];
  return [{ path: [...c.path, 'outlet', 'wall'], message: 'expected a wall thinner than half the outlet' }];
}

/** A route given by hand ends where its collector stands. */
function fixedByRoutes(c: PlacedCollector, { runners }: Draft['sections']): PlanFault[] {
  if (c.section.freedom === undefined) return [];
  const route = runners?.routes.find((r) => c.cylinders.includes(r.cylinder));
  if (route === undefined) return [];
  const message = `the route of cylinder ${route.cylinder} is given by hand and ends here: leave freedom out`;
  return [{ path: [...c.path, 'freedom'], atKey: true, message }];
}
