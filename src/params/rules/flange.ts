import { boltGroups } from '../bolt-groups.js';
import type { PlanFault } from '../faults/plan-problem.js';
import { lengthWords, show } from '../faults/wording.js';
import type { Draft } from '../resolve/draft.js';
import { type PlacedHead, placedHeads } from '../resolve/heads.js';
import type { PlanFile } from '../schema/plan-file.js';

type FlangeFile = PlanFile['flange'];

/** The flange against the heads it is bolted to, and its fields against each other. */
export function flangeRules({ sections }: Draft): PlanFault[] {
  const { flange, units = 'mm' } = sections;
  if (flange === undefined) return [];
  const heads = placedHeads(sections);
  const words = (mm: number): string => lengthWords(mm, units);
  return [
    ...enlargeTwice(flange),
    ...slotsShut(flange, words),
    ...groupFaults(flange, heads),
    ...unknownHeads(flange, heads),
    ...fixedBolt(flange, heads),
  ];
}

/** Growth of the opening given in both places and not alike. */
function enlargeTwice({ opening, enlarge }: FlangeFile): PlanFault[] {
  if (opening.match === 'tube_bore' || opening.match === 'tube_od') {
    if (enlarge === 0) return [];
    const message = `the opening is matched to the tube (flange.opening.match: ${opening.match}), so it is not grown by flange.enlarge; leave it out`;
    return [{ path: ['flange', 'enlarge'], message }];
  }
  if (opening.enlarge === undefined || enlarge === 0 || opening.enlarge === enlarge) return [];
  return [
    {
      path: ['flange', 'opening', 'enlarge'],
      message: 'the growth of the opening is given in flange.enlarge too; give it once',
    },
  ];
}

/** A slot that a compensated kerf closes. */
function slotsShut({ style, kerf }: FlangeFile, words: (mm: number) => string): PlanFault[] {
  if (style.kind !== 'slotted' || !kerf.compensate || style.width > kerf.width) return [];
  const message = `expected a slot wider than the kerf of ${words(kerf.width)}, found ${words(style.width)}`;
  return [{ path: ['flange', 'style', 'width'], message }];
}

const STYLE = ['flange', 'style'];

/** Groups that name every cylinder of their head once, and flanges of two bolts at least. */
function groupFaults({ style }: FlangeFile, heads: readonly PlacedHead[]): PlanFault[] {
  if (style.kind !== 'separate' || heads.length === 0) return [];
  const headOf = new Map(heads.flatMap((h) => h.section.ports.map((p) => [p.cylinder, h] as const)));
  const faults = (style.groups ?? []).flatMap((group, g) =>
    group.flatMap((cylinder, i): PlanFault[] => {
      const path = [...STYLE, 'groups', g, i];
      const first = style.groups!.flat().indexOf(cylinder);
      const place = style.groups!.slice(0, g).flat().length + i;
      const head = headOf.get(cylinder);
      if (head === undefined) return [{ path, message: `cylinder ${cylinder} has no port` }];
      if (first !== place) return [{ path, message: `cylinder ${cylinder} is in a group already` }];
      if (head === headOf.get(group[0]!)) return [];
      return [{ path, message: `cylinder ${cylinder} is on another head than cylinder ${group[0]} of its group` }];
    }),
  );
  if (faults.length > 0) return faults;
  if (style.groups !== undefined) {
    const missing = [...headOf.keys()].find((c) => !style.groups!.flat().includes(c));
    if (missing !== undefined) {
      return [{ path: [...STYLE, 'groups'], message: `cylinder ${missing} is in no group; list every cylinder once` }];
    }
  }
  return heads.flatMap((h) => tooFewBolts(h, style.groups));
}

/** Bolts a flange needs so that it neither turns nor tips. */
const LEAST_BOLTS = 2;

function tooFewBolts({ section }: PlacedHead, groups: readonly (readonly number[])[] | undefined): PlanFault[] {
  const own = section.ports.map((p) => p.cylinder);
  const here = groups?.filter((g) => own.includes(g[0]!)) ?? own.map((c) => [c]);
  return boltGroups(here, section.ports, section.bolts).flatMap(({ cylinders, bolts }): PlanFault[] => {
    if (bolts.length >= LEAST_BOLTS) return [];
    const whose = `cylinder${cylinders.length > 1 ? 's' : ''} ${cylinders.join(' and ')}`;
    const message = `the separate flange of ${whose} would have ${bolts.length === 0 ? 'no bolt' : 'one bolt'} of its own where two are needed; group it with a neighbour in flange.style.groups or add a bolt`;
    return [{ path: groups === undefined ? STYLE : [...STYLE, 'groups', groups.indexOf(cylinders)], message }];
  });
}

function unknownHeads({ dowels, notches }: FlangeFile, heads: readonly PlacedHead[]): PlanFault[] {
  if (heads.length === 0) return [];
  const names = heads.map((h) => h.name);
  const check = (list: readonly { readonly head?: string | undefined }[], field: string): PlanFault[] =>
    list.flatMap(({ head }, i): PlanFault[] => {
      if (head === undefined || names.includes(head)) return [];
      const message = `expected the name of a head (${names.map(show).join(', ')}), found ${show(head)}`;
      return [{ path: ['flange', field, i, 'head'], message }];
    });
  return [...check(dowels, 'dowels'), ...check(notches, 'notches')];
}

function fixedBolt({ growth }: FlangeFile, heads: readonly PlacedHead[]): PlanFault[] {
  const most = Math.min(...heads.map((h) => h.section.bolts.length));
  if (growth === undefined || growth.fixed === 'middle' || growth.fixed <= most) return [];
  const message = `expected a bolt from 1 to ${most}, found ${growth.fixed}`;
  return [{ path: ['flange', 'growth', 'fixed'], message }];
}
