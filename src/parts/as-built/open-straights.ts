import { segmentLength } from '../../geometry/path/path.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import type { RoutedTube } from '../../routing/routed.js';
import { cylinderOf } from '../tube/pieces.js';
import type { TubeCuts } from '../tube/tube-cuts.js';

/** A straight of a tube, where it can be opened and made shorter or longer. mm. */
export interface OpenStraight {
  /** From 0; straight k comes before bend k. */
  readonly index: number;
  /** Running lengths of its ends. */
  readonly from: number;
  readonly to: number;
  /** The way of the gas. */
  readonly direction: Vec3;
  /** The least it may be. */
  readonly least: number;
  /** Names of the joints on it, and the one to open: a butt joint where there is one. */
  readonly joints: readonly string[];
  readonly joint: string | null;
  /** Names of the pieces it is part of. */
  readonly pieces: readonly string[];
}

const ON_IT = 1e-6;

/** The straights of a tube from where its first piece starts. */
export function openStraights(plan: Plan, tube: RoutedTube, cuts: TubeCuts): OpenStraight[] {
  const { segments } = tube.path;
  let run = 0;
  return segments.flatMap((s, i): OpenStraight[] => {
    const from = Math.max(run, cuts.start);
    run += segmentLength(s);
    if (s.kind === 'bend') return [];
    const to = Math.max(from, run);
    const own = cuts.joints.filter((j) => j.run >= from - ON_IT && j.run <= to + ON_IT);
    const pieces = cuts.pieces.filter(({ piece: p }) => p.fromRun < to - ON_IT && p.toRun > from + ON_IT);
    return [
      {
        index: i / 2,
        from,
        to,
        direction: s.direction,
        least: leastStraight(plan, tube, i, segments.length),
        joints: own.map((j) => j.name),
        joint: (own.find((j) => j.kind === 'butt') ?? own[0])?.name ?? null,
        pieces: pieces.map((c) => c.piece.name),
      },
    ];
  });
}

function leastStraight({ tube }: Plan, routed: RoutedTube, at: number, count: number): number {
  if (at === count - 1) return tube.minStraightInlet;
  if (at === 0) return cylinderOf(routed) === null ? tube.minStraight : tube.minStraightPort;
  return tube.minStraight;
}
