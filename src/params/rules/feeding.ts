import type { PlanFault } from '../faults/plan-problem.js';
import { either, show } from '../faults/wording.js';
import { type PlacedCollector, placedCollectors } from '../resolve/collectors.js';
import type { Draft } from '../resolve/draft.js';
import { lastSize } from '../resolve/tubes.js';
import { bentTubeFaults } from '../schema/stock-bend.js';
import { growthFaults } from '../tube-growth.js';

/** Collectors fed by others: known names, each feeding one other, at most two in a row, and secondaries that lead there. */
export function feedingRules({ sections, given }: Draft): PlanFault[] {
  const collectors = placedCollectors(sections, []);
  return [
    ...collectors.flatMap((c, i) => c.from.flatMap((name, k) => feederFaults(collectors, i, name, k))),
    ...secondariesWanted(collectors, given),
    ...secondaryTube(sections),
  ];
}

function feederFaults(collectors: readonly PlacedCollector[], i: number, name: string, k: number): PlanFault[] {
  const c = collectors[i]!;
  const fault = (message: string): PlanFault[] => [{ path: [...c.path, 'from', k], message }];
  if (name === c.name) return fault('a collector cannot feed itself');
  const feeder = collectors.find((other) => other.name === name);
  if (feeder === undefined) {
    const others = collectors.filter((other) => other !== c).map((other) => show(other.name));
    if (others.length === 0) return fault(`no collector is named ${show(name)}; this is the only one`);
    return fault(`no collector is named ${show(name)}; the others are ${either(others, 'and')}`);
  }
  if (c.from.indexOf(name) !== k) return fault(`the collector ${show(name)} is listed twice`);
  const earlier = collectors.slice(0, i).find((other) => other.from.includes(name));
  if (earlier !== undefined) return fault(`the collector ${show(name)} feeds ${show(earlier.name)} already`);
  if (reaches(collectors, feeder, c.name)) {
    return fault(`the gas would run in a circle: ${show(name)} is itself fed by way of ${show(c.name)}`);
  }
  if (feeder.from.length === 0) return [];
  return fault(`${show(name)} is itself fed by others: two collectors in a row are the most, as in a 4-2-1`);
}

/** True when the gas of a named collector comes to another one. */
function reaches(collectors: readonly PlacedCollector[], end: PlacedCollector, start: string): boolean {
  const seen = new Set<string>();
  const look = (c: PlacedCollector): boolean => {
    if (c.from.includes(start)) return true;
    if (seen.has(c.name)) return false;
    seen.add(c.name);
    return collectors.some((other) => c.from.includes(other.name) && look(other));
  };
  return look(end);
}

/** Needed when a collector is fed by others, else in the way. */
function secondariesWanted(collectors: readonly PlacedCollector[], given: Draft['given']): PlanFault[] {
  const fed = collectors.find((c) => c.from.length > 0);
  if (fed !== undefined && !given.has('secondaries')) {
    const message = `missing; ${show(fed.name)} is fed by other collectors, so describe the tubes between under secondaries: length, od, wall and bends`;
    return [{ path: ['secondaries'], message }];
  }
  if (fed !== undefined || !given.has('secondaries') || collectors.length === 0) return [];
  const message = 'no collector is fed by others: leave this section out, or list the feeding collectors under from';
  return [{ path: ['secondaries'], atKey: true, message }];
}

function secondaryTube({ tube, secondaries, units = 'mm' }: Draft['sections']): PlanFault[] {
  if (tube === undefined || secondaries === undefined) return [];
  const path = ['secondaries'];
  return [
    ...bentTubeFaults(secondaries, tube.least_clr, path, units),
    ...growthFaults(lastSize(tube), secondaries, 'no smaller tube', path, units),
  ];
}
