import { lengthsIn, tidy } from '../../params/faults/wording.js';
import { inches, type LengthUnit } from '../../params/units.js';
import type { Miss, NearestTube, Relaxation } from '../../routing/miss.js';
import { CommandError, EXIT } from '../exit-code.js';
import { brokenLimitWords } from './broken-limit-words.js';
import { textTable } from './text-table.js';

/** How many broken limits are told; the worst come first. */
const TOLD = 6;

/** The end of a command when no set of routes holds, in the plan's unit: the nearest miss, the limits that conflict and what alone would mend it. */
export function noRoute(miss: Miss, units: LengthUnit): CommandError {
  const message = [
    miss.timedOut
      ? 'time ran out (runners.budget) before a set of routes that keeps all limits was found'
      : 'no set of routes keeps all limits',
    ...nearestLines(miss, units),
    ...conflictLines(miss),
    ...relaxationLines(miss, units),
    ...(miss.timedOut ? bestSoFar(miss.nearest, units) : []),
    miss.relaxations.length > 0
      ? 'Nothing was written.'
      : `Nothing was written. Ease one of these in the plan${miss.timedOut ? ', or give runners.budget more seconds' : ''}.`,
  ];
  return new CommandError(EXIT.noRoute, message.join('\n'), detailsOf(miss));
}

function nearestLines({ broken }: Miss, units: LengthUnit): string[] {
  if (broken.length === 0) return [];
  const more = broken.length > TOLD ? [`  and ${broken.length - TOLD} more`] : [];
  const lines = broken.slice(0, TOLD).map((b) => `  - ${brokenLimitWords(b, units)}`);
  return ['the limits that bind in the nearest miss, worst first:', ...lines, ...more];
}

function conflictLines({ conflict }: Miss): string[] {
  if (conflict.length === 0) return [];
  const lines = conflict.map((words) => `  - ${words}`);
  return [
    conflict.length === 1
      ? 'This limit alone leaves no way, as far as the search can tell:'
      : 'These limits conflict, and no fewer of them, as far as the search can tell:',
    ...lines,
  ];
}

function relaxationLines({ relaxations, timedOut }: Miss, units: LengthUnit): string[] {
  if (relaxations.length === 0) {
    return [`No single change that would do was found${timedOut ? ' in the time there was' : ''}.`];
  }
  const head = relaxations.length === 1 ? 'This alone would do (tried):' : 'Any one of these alone would do (tried):';
  return [head, ...relaxations.map((r) => `  - ${changeOf(r, units)}`)];
}

/** A change of the plan: 'runners.length: 760 -> 812 mm'. */
function changeOf({ words, from, to, unit }: Relaxation, units: LengthUnit): string {
  if (to === null) return words;
  const inInches = unit === 'mm' && units === 'in';
  const plain = (x: number): string => (inInches ? tidy(inches(x)) : String(Number(x.toFixed(2))));
  return `${words}: ${plain(from!)} -> ${plain(to)} ${inInches ? 'in' : unit}`;
}

/** The set the search got nearest with, when time ended it. */
function bestSoFar(tubes: readonly NearestTube[], units: LengthUnit): string[] {
  const words = lengthsIn(units);
  if (tubes.length === 0) return ['There was no time for any set of routes, however near.'];
  const rows = tubes.map((t) => [
    t.name,
    String(t.inlet),
    words(t.length, 1),
    String(t.bends),
    t.gap === null ? 'wide' : words(t.gap, 1),
  ]);
  const lines = textTable([['tube', 'inlet', 'length', 'bends', 'least gap'], ...rows]);
  return ['The nearest set so far, NOT a solution:', ...lines.map((line) => `  ${line}`)];
}

/** What --json prints beside the message. */
const detailsOf = (miss: Miss): Readonly<Record<string, unknown>> => ({
  broken: miss.broken.map((b) => ({
    kind: b.kind,
    place: b.place,
    value_mm: finite(b.value),
    limit_mm: finite(b.limit),
  })),
  conflict: miss.conflict,
  relaxations: miss.relaxations,
  nearest: miss.nearest.map((t) => ({
    name: t.name,
    inlet: t.inlet,
    length_mm: t.length,
    target_mm: t.target,
    bends: t.bends,
    clearance_mm: t.gap,
  })),
  timed_out: miss.timedOut,
});

/** JSON has no infinity: null where no route of any length was found. */
const finite = (x: number): number | null => (Number.isFinite(x) ? x : null);
