import { type Frame, frameAlong, WORLD } from '../../geometry/frame.js';
import type { PlanPath } from '../faults/plan-problem.js';
import type { HeadSection, PlanSections } from './sections.js';

/** One head of the file, placed in the world. */
export interface PlacedHead {
  readonly name: string;
  readonly frame: Frame;
  readonly section: HeadSection;
  readonly path: PlanPath;
}

/** The heads of a plan: `head` at the world's frame, or each of `heads` at its place. */
export function placedHeads(sections: Pick<Partial<PlanSections>, 'head' | 'heads'>): readonly PlacedHead[] {
  const { head, heads = [] } = sections;
  if (head !== undefined) return [{ name: 'head', frame: WORLD, section: head, path: ['head'] }];
  return heads.map((section, i) => ({
    name: section.name,
    frame: frameAlong(section.at, section.facing, section.clocking),
    section,
    path: ['heads', i],
  }));
}
