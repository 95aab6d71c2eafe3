import { degrees } from '../../geometry/angle.js';
import { type LengthWords, lengthWords } from '../../params/faults/wording.js';
import type { LengthUnit } from '../../params/units.js';
import type { CutPiece } from '../tube/cut-list.js';
import type { StockItem } from './bill.js';
import { FIT, roomOf, type Saw } from './pattern.js';

const deg = (rad: number): string => `${degrees(rad).toFixed(1)} deg`;

/** Why no item of the plan makes a piece, in words. */
export function whyUnmade(piece: CutPiece, items: readonly StockItem[], saw: Saw, units: LengthUnit): string {
  const words = (mm: number): string => lengthWords(mm, units, 1);
  if (piece.angle === null) return straightWhy(piece, items, saw, words);
  const { angle, clr } = piece;
  const bends = items.flatMap((i) => (i.bend === null || Math.abs(i.bend.clr - clr!) > FIT.length ? [] : [i.bend]));
  if (bends.length === 0) return `no bend has a CLR of ${words(clr!)}`;
  const largest = Math.max(...bends.map((b) => b.angle));
  if (angle > largest + FIT.angle) return `its ${deg(angle)} are more than the ${deg(largest)} of the largest bend`;
  const long = Math.max(piece.cutLegBefore, piece.cutLegAfter);
  const leg = Math.max(...bends.map((b) => b.leg));
  if (long > leg + FIT.length) return `its leg of ${words(long)} is longer than the ${words(leg)} of the stock`;
  return 'it keeps both legs: only a whole bend has two that long, a cut one keeps one';
}

function straightWhy({ length }: CutPiece, items: readonly StockItem[], saw: Saw, words: LengthWords): string {
  const rooms = items.map((i) => roomOf(i, saw)).flatMap((r) => [r.stick, r.leg1, r.leg2]);
  const longest = Math.max(0, ...rooms) - saw.kerf;
  const sticks = items.filter((i) => i.kind === 'stick').map((i) => i.length);
  const stick = sticks.length > 0 ? `the longest stick of ${words(Math.max(...sticks))}` : 'the longest leg';
  return `its ${words(length)} are longer than the ${words(Math.max(0, longest))} that ${stick} gives`;
}
