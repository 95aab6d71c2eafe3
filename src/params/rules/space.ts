import { heightAbove, type Plane } from '../../geometry/plane.js';
import type { PlanFault } from '../faults/plan-problem.js';
import { lengthWords, show } from '../faults/wording.js';
import { type PlacedCollector, placedCollectors } from '../resolve/collectors.js';
import type { Draft } from '../resolve/draft.js';
import { GROUND } from '../resolve/keep-outs.js';
import type { LengthUnit } from '../units.js';

/** The ground and planes among the keep-outs: one ground, and every collector on the free side. */
export function spaceRules({ sections }: Draft): PlanFault[] {
  const { keep_out = [], ground, units = 'mm' } = sections;
  const collectors = placedCollectors(sections, []);
  const planes = [
    ...(ground === undefined ? [] : [{ name: GROUND, point: [0, ground, 0], normal: [0, 1, 0] } as const]),
    ...keep_out.flatMap((k) => (k.kind === 'half_space' ? [k] : [])),
  ];
  return [...secondGround(keep_out, ground), ...collectors.flatMap((c) => planes.flatMap((p) => behind(c, p, units)))];
}

function secondGround(keepOuts: NonNullable<Draft['sections']['keep_out']>, ground: number | undefined): PlanFault[] {
  const i = ground === undefined ? -1 : keepOuts.findIndex((k) => k.name === GROUND);
  if (i < 0) return [];
  return [{ path: ['keep_out', i, 'name'], message: `the name "${GROUND}" is taken by the height given as ground` }];
}

function behind(c: PlacedCollector, plane: Plane & { readonly name: string }, units: LengthUnit): PlanFault[] {
  const height = heightAbove(plane, c.section.at);
  if (height > 0) return [];
  const message = `the inlet plane's centre lies ${lengthWords(-height, units)} behind the plane of ${show(plane.name)}`;
  return [{ path: [...c.path, 'at'], message }];
}
