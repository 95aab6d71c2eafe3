import type { FabricatedPiece, PatternPlan } from '../plan.js';
import type { PlanFile } from '../schema/plan-file.js';

/** One piece of the file's `patterns.extra`. */
export type FabricatedSection = PlanFile['patterns']['extra'][number];

/** How patterns are laid out; pieces take from the tube what they leave out. */
export function patternsOf({ patterns, tube, units }: Pick<PlanFile, 'patterns' | 'tube' | 'units'>): PatternPlan {
  const { wrap, tab, paper, extra } = patterns;
  return { wrap, tab, paper, units, extra: extra.map((s) => pieceOf(s, tube)) };
}

/** A piece with the tube's od, wall and material where it has none of its own. */
export function pieceOf(
  s: FabricatedSection,
  tube: Pick<PlanFile['tube'], 'od' | 'wall' | 'material'>,
): FabricatedPiece {
  switch (s.kind) {
    case 'frustum':
    case 'eccentric':
      return { ...s, thickness: s.thickness ?? tube.wall, material: s.material ?? tube.material };
    case 'square_to_round': {
      const { corner_radius: cornerRadius, ...rest } = s;
      return { ...rest, cornerRadius, thickness: s.thickness ?? tube.wall, material: s.material ?? tube.material };
    }
    case 'saddle': {
      const { host_od: hostOd, host_wall: hostWall = tube.wall, ...rest } = s;
      return { ...rest, hostOd, hostWall, od: s.od ?? tube.od, wall: s.wall ?? tube.wall };
    }
    default:
      return { ...s, od: s.od ?? tube.od, wall: s.wall ?? tube.wall };
  }
}
