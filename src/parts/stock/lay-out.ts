import type { CutPiece } from '../tube/cut-list.js';
import type { StockItem, StockUse } from './bill.js';
import { kerfAngle, type Pattern, type Place, type Saw } from './pattern.js';

/** A piece with the place its pattern gives it. */
interface PlacedPiece {
  readonly piece: CutPiece;
  readonly place: Place;
}

type Cut = StockUse['cuts'][number];

/** Stretches up to this are none, mm. */
const NOTHING = 1e-6;

/**
 * The cuts of one item along its centreline, mm, with a kerf between neighbours. Straights are cut from the outer ends of legs and
 * from the first end of a stick, whose last end the vice holds. `pieces` are in the order of the pattern's cuts.
 */
export function layOutUse(
  number: number,
  item: StockItem,
  pattern: Pattern,
  pieces: readonly CutPiece[],
  saw: Saw,
  leastOffcut: number,
): StockUse {
  const placed = pattern.cuts.map(({ load }, i) => ({ piece: pieces[i]!, place: load.place }));
  const cuts = (item.bend === null ? fromStick(placed, saw) : fromBend(placed, item, saw)).sort(
    (a, b) => a.from - b.from,
  );
  const offcuts = offcutsOf(cuts, item, saw, leastOffcut);
  const made = cuts.reduce((sum, c) => sum + c.to - c.from, 0);
  return {
    number,
    item,
    cuts,
    offcut: Math.max(0, ...offcuts.map((o) => o.to - o.from)),
    waste: item.length - made,
    offcuts,
  };
}

const straightCut = (piece: CutPiece, from: number): Cut => ({
  piece: piece.piece.name,
  from,
  to: from + piece.cutLength,
  reversed: false,
});

function fromStick(placed: readonly PlacedPiece[], { kerf }: Saw): Cut[] {
  let at = 0;
  return placed.map(({ piece }) => {
    const cut = straightCut(piece, at);
    at = cut.to + kerf;
    return cut;
  });
}

function fromBend(placed: readonly PlacedPiece[], item: StockItem, { kerf }: Saw): Cut[] {
  const { clr, angle, leg } = item.bend!;
  const between = clr * kerfAngle(kerf, clr, item.od);
  const arcEnd = leg + clr * angle;
  const at = (...places: Place[]) => placed.filter((p) => places.includes(p.place)).map((p) => p.piece);
  const first = fromStick(
    at('leg1').map((piece) => ({ piece, place: 'stick' })),
    { kerf, grip: 0 },
  );
  const last = fromStick(
    at('leg2').map((piece) => ({ piece, place: 'stick' })),
    { kerf, grip: 0 },
  );
  const mirrored = last.map((c) => ({ ...c, from: item.length - c.to, to: item.length - c.from }));
  const cuts = [...first, ...mirrored];
  let next = leg;
  for (const { piece, place } of placed.filter((p) => p.place === 'end1' || p.place.startsWith('whole'))) {
    const before =
      place === 'whole2'
        ? Math.min(piece.cutLegBefore, piece.cutLegAfter)
        : Math.max(piece.cutLegBefore, piece.cutLegAfter);
    const cut = bendCut(piece, leg - before, before);
    cuts.push(cut);
    next = leg + piece.centreArc! + between;
  }
  for (const piece of at('arc')) {
    cuts.push(bendCut(piece, next, 0));
    next += piece.centreArc! + between;
  }
  for (const piece of at('end2')) cuts.push(bendCut(piece, arcEnd - piece.centreArc!, 0));
  return cuts;
}

/** A bent piece whose leg towards the item's first end is `before` long; turned round where its own legs say so. */
function bendCut(piece: CutPiece, from: number, before: number): Cut {
  const reversed = Math.abs(piece.cutLegBefore - before) > Math.abs(piece.cutLegAfter - before) + NOTHING;
  return { piece: piece.piece.name, from, to: from + piece.cutLength, reversed };
}

/** What is left between the cuts and beyond them, less the kerf where a saw passes; slivers up to a kerf are dust. */
function offcutsOf(cuts: readonly Cut[], item: StockItem, { kerf }: Saw, least: number): StockUse['offcuts'] {
  const ends = [0, ...cuts.flatMap((c) => [c.from, c.to]), item.length];
  const offcuts: { from: number; to: number; kept: boolean }[] = [];
  for (let i = 0; i < ends.length; i += 2) {
    const from = ends[i]! + (i === 0 ? 0 : kerf);
    const to = ends[i + 1]! - (i + 2 === ends.length ? 0 : kerf);
    if (to - from > Math.max(NOTHING, kerf)) offcuts.push({ from, to, kept: to - from >= least });
  }
  return offcuts;
}
