import type { PlanFault } from '../faults/plan-problem.js';
import { lengthWords } from '../faults/wording.js';
import type { FabricatedPiece } from '../plan.js';
import type { Draft } from '../resolve/draft.js';
import { pieceOf } from '../resolve/patterns.js';

/** Fabricated pieces against themselves and the tube they take their sizes from: walls leave a bore, bends an inside, hosts carry their branch. */
export function patternRules({ sections }: Draft): PlanFault[] {
  const { patterns, tube, secondaries, units = 'mm' } = sections;
  if (patterns === undefined || tube === undefined) return [];
  const words = (mm: number): string => lengthWords(mm, units);
  const pieces = patterns.extra.map((section) => pieceOf(section, tube));
  const bores = [tube, ...tube.steps, ...(secondaries === undefined ? [] : [secondaries]), ...pieces].flatMap((t) =>
    'od' in t ? [t.od - 2 * t.wall] : [],
  );
  return [
    ...tooStiff(
      patterns,
      bores.filter((bore) => bore > 0),
      words,
    ),
    ...pieces.flatMap((piece, i): PlanFault[] => {
      const fault = faultOf(piece, words);
      return fault === null ? [] : [{ path: ['patterns', 'extra', i, fault.field], message: fault.message }];
    }),
  ];
}

/** Paper that is rolled inside must be thinner than the tightest bore is wide. */
function tooStiff(
  { wrap, paper }: { readonly wrap: string; readonly paper: number },
  bores: readonly number[],
  words: Words,
): PlanFault[] {
  const least = Math.min(...bores);
  if (wrap === 'outside' || paper < least / 4) return [];
  const message = `expected paper thinner than a quarter of the tightest bore (${words(least / 4)}), found ${words(paper)}`;
  return [{ path: ['patterns', 'paper'], message }];
}

type Words = (mm: number) => string;

function faultOf(p: FabricatedPiece, words: Words): { readonly field: string; readonly message: string } | null {
  switch (p.kind) {
    case 'frustum':
    case 'eccentric':
      return tooThick(p, { from: p.from, to: p.to }, words);
    case 'square_to_round':
      return tooThick(p, { width: p.width, depth: p.depth, diameter: p.diameter }, words);
    default:
      break;
  }
  if (2 * p.wall >= p.od) {
    return { field: 'wall', message: `expected a wall that leaves a bore in ${words(p.od)}, found ${words(p.wall)}` };
  }
  if (p.kind === 'pie_cut' && p.clr <= p.od / 2) {
    const message = `expected a centreline radius over half the tube's diameter (${words(p.od / 2)}), found ${words(p.clr)}`;
    return { field: 'clr', message };
  }
  return p.kind === 'saddle' ? unseated(p, words) : null;
}

function tooThick(
  p: { readonly measured: string; readonly thickness: number },
  sizes: Readonly<Record<string, number>>,
  words: Words,
): { readonly field: string; readonly message: string } | null {
  if (p.measured !== 'outside') return null;
  const field = Object.keys(sizes).find((name) => sizes[name]! <= 2 * p.thickness);
  if (field === undefined) return null;
  const message = `expected an outside size over twice the sheet (${words(p.thickness)} thick), found ${words(sizes[field]!)}`;
  return { field, message };
}

/** The bore of a branch must meet its host all round. */
function unseated(p: Extract<FabricatedPiece, { kind: 'saddle' }>, words: Words) {
  const bore = p.od - 2 * p.wall;
  const least = bore + 2 * p.offset;
  if (p.hostOd >= least) return null;
  const message = `expected a tube that the bore of the branch (${words(bore)}) meets all round: ${words(least)} or more, found ${words(p.hostOd)}`;
  return { field: 'host_od', message };
}
