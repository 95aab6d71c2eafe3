import type { PlanFault, PlanPath } from '../faults/plan-problem.js';
import { either, lengthWords, show } from '../faults/wording.js';
import { type PlacedCollector, placedCollectors } from '../resolve/collectors.js';
import type { Draft } from '../resolve/draft.js';
import { placedHeads } from '../resolve/heads.js';
import { feedsOf, type PlateSection } from '../resolve/plates.js';
import { placedPorts } from '../resolve/ports.js';
import type { LengthUnit } from '../units.js';

/** Plates against collectors: each names collectors that exist, and a size left out has an outlet to come from. */
export function plateRules(draft: Draft): PlanFault[] {
  const { sections } = draft;
  const ported = placedPorts(placedHeads(sections)).map((p) => p.port.cylinder);
  const collectors = placedCollectors(sections, ported);
  const names = collectors.map((c) => c.name);
  const sound = sections.collector !== undefined || sections.collectors !== undefined;
  return (sections.plates ?? []).flatMap((plate, i): PlanFault[] => [
    ...(sound ? strangers(plate, ['plates', i], names) : []),
    ...tooMany(plate, ['plates', i]),
    ...sizeless(plate, ['plates', i]),
    ...ringless(plate, ['plates', i], collectors, sections.units ?? 'mm'),
  ]);
}

function strangers(plate: PlateSection, path: PlanPath, names: readonly string[]): PlanFault[] {
  return feedsOf(plate).flatMap((name, i): PlanFault[] => {
    if (names.includes(name)) return [];
    const at = typeof plate.for === 'string' ? ['for'] : ['for', i];
    return [
      { path: [...path, ...at], message: `expected a collector (${either(names.map(show))}), found ${show(name)}` },
    ];
  });
}

function tooMany(plate: PlateSection, path: PlanPath): PlanFault[] {
  const feeds = feedsOf(plate);
  const divided = plate.kind === 'rectangle_four_bolt' && plate.throat?.kind === 'divided';
  if (feeds.length > 1 && !divided) {
    return [{ path: [...path, 'for'], message: 'two collectors end only in a plate with a divided throat' }];
  }
  if (feeds.length > 1 && feeds[0] === feeds[1]) {
    return [{ path: [...path, 'for', 1], message: `collector ${show(feeds[1])} is listed twice` }];
  }
  return [];
}

/** A size that is left out comes from the outlet of a collector. */
function sizeless(plate: PlateSection, path: PlanPath): PlanFault[] {
  if (plate.for !== undefined) return [];
  const missing = (field: string): PlanFault[] => [
    { path: [...path, field], message: 'missing; give it, or under for the collector whose outlet it comes from' },
  ];
  switch (plate.kind) {
    case 'rectangle_four_bolt':
      return plate.throat === undefined ? missing('throat') : [];
    case 'vband_bore':
      return plate.tube_od === undefined ? missing('tube_od') : [];
    case 'slip_joint':
      return [
        ...(plate.tube_od === undefined ? missing('tube_od') : []),
        ...(plate.wall === undefined ? missing('wall') : []),
      ];
    default:
      return plate.bore === undefined ? missing('bore') : [];
  }
}

/** A ring must be larger than what it goes round. */
function ringless(
  plate: PlateSection,
  path: PlanPath,
  collectors: readonly PlacedCollector[],
  unit: LengthUnit,
): PlanFault[] {
  if (plate.kind !== 'vband_bore' || plate.od === undefined) return [];
  const tube = plate.tube_od ?? collectors.find((c) => c.name === feedsOf(plate)[0])?.section.outlet.od;
  const bore = (tube ?? 0) + 2 * plate.fit;
  if (plate.od > bore) return [];
  const message = `expected a ring larger than its bore (${lengthWords(bore, unit)}), found ${lengthWords(plate.od, unit)}`;
  return [{ path: [...path, 'od'], message }];
}
