import { outlineToOutline } from '../../geometry/outline/distance.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { rotateOutline, translateOutline } from '../../geometry/outline/transform.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { SheetPlan } from '../../params/plan.js';
import type { LengthUnit } from '../../params/units.js';
import type { FlatPart } from './flat-part.js';

/** A piece on a sheet: a part, turned by a quarter or not, then moved. */
export interface SheetPiece {
  readonly part: FlatPart;
  readonly turned: boolean;
  /** mm. */
  readonly by: Vec2;
}

/** Pieces of one material and thickness laid out on one sheet; its lower left corner is the origin. */
export interface Sheet {
  /** 'sheet', or 'sheet-2' where there are several. */
  readonly name: string;
  readonly size: Vec2;
  readonly thickness: number;
  readonly material: string;
  /** Unit its words say lengths in: that of its parts. */
  readonly units: LengthUnit;
  readonly pieces: readonly SheetPiece[];
}

export interface SheetLayout {
  readonly sheets: readonly Sheet[];
  /** Parts that fit no sheet of this size. */
  readonly tooBig: readonly FlatPart[];
}

/** The plan's sheets for its flat parts: rows of pieces, the tallest first; each stock has sheets of its own. */
export function layOut(parts: readonly FlatPart[], plan: SheetPlan): SheetLayout {
  const tooBig = parts.filter((p) => turnThatFits(p, room(plan)) === null);
  const stocks = new Map<string, FlatPart[]>();
  for (const part of parts.filter((p) => !tooBig.includes(p))) {
    const key = `${part.thickness} ${part.material}`;
    const copies = Array.from({ length: part.count * plan.count }, () => part);
    stocks.set(key, [...(stocks.get(key) ?? []), ...copies]);
  }
  const packed = [...stocks.values()].flatMap((stock) => shelves(stock, plan));
  for (const pieces of packed) refuseCrowding(pieces, plan.gap);
  const sheets = packed.map((pieces, i): Sheet => {
    const { thickness, material, units } = pieces[0]!.part;
    const name = packed.length === 1 ? 'sheet' : `sheet-${i + 1}`;
    return { name, size: plan.size, thickness, material, units, pieces };
  });
  return { sheets, tooBig };
}

/** An outline of a part where its piece lies. */
export const onSheet = ({ turned, by }: SheetPiece, outline: Outline): Outline =>
  translateOutline(turned ? rotateOutline(outline, 0, 1) : outline, by);

/** A point of a part where its piece lies. */
export const pointOnSheet = ({ turned, by }: SheetPiece, [x, y]: Vec2): Vec2 =>
  turned ? [by[0] - y, by[1] + x] : [by[0] + x, by[1] + y];

const room = ({ size, margin }: SheetPlan): Vec2 => [size[0] - 2 * margin, size[1] - 2 * margin];

function extent(part: FlatPart, turned: boolean): { readonly from: Vec2; readonly size: Vec2 } {
  const { from, to } = outlineBounds(turned ? rotateOutline(part.cut.outer, 0, 1) : part.cut.outer);
  return { from, size: [to[0] - from[0], to[1] - from[1]] };
}

/** How a part fits a room, lying rather than standing; null when it does not. */
function turnThatFits(part: FlatPart, [w, h]: Vec2): boolean | null {
  const fits = [false, true].filter((turned) => {
    const [x, y] = extent(part, turned).size;
    return x <= w + 1e-9 && y <= h + 1e-9;
  });
  const height = (turned: boolean): number => extent(part, turned).size[1];
  return fits.sort((a, b) => height(a) - height(b))[0] ?? null;
}

interface Shelf {
  readonly sheet: number;
  readonly y: number;
  readonly height: number;
  /** Where the next piece may begin. */
  x: number;
}

/** First-fit shelves with pieces by falling height (Coffman, Garey, Johnson and Tarjan 1980, FFDH, from memory). */
function shelves(stock: readonly FlatPart[], plan: SheetPlan): SheetPiece[][] {
  const [width, height] = room(plan);
  const { margin, gap } = plan;
  const lying = stock.map((part) => {
    const turned = turnThatFits(part, [width, height])!;
    return { part, turned, ...extent(part, turned) };
  });
  lying.sort((a, b) => b.size[1] - a.size[1] || b.size[0] - a.size[0]);
  const rows: Shelf[] = [];
  const tops: number[] = [];
  const sheets: SheetPiece[][] = [];
  for (const { part, turned, from, size } of lying) {
    let shelf = rows.find((r) => r.x + size[0] <= width + 1e-9 && size[1] <= r.height + 1e-9);
    if (shelf === undefined) {
      let sheet = tops.findIndex((top) => top + size[1] <= height + 1e-9);
      if (sheet < 0) {
        sheet = tops.push(0) - 1;
        sheets.push([]);
      }
      shelf = { sheet, y: tops[sheet]!, height: size[1], x: 0 };
      rows.push(shelf);
      tops[sheet] = shelf.y + size[1] + gap;
    }
    const by: Vec2 = [margin + shelf.x - from[0], margin + shelf.y - from[1]];
    sheets[shelf.sheet]!.push({ part, turned, by });
    shelf.x += size[0] + gap;
  }
  return sheets;
}

/** Throws unless every two pieces keep the gap, measured between their outlines. */
function refuseCrowding(pieces: readonly SheetPiece[], gap: number): void {
  const placed = pieces.map((p) => onSheet(p, p.part.cut.outer));
  const boxes = placed.map(outlineBounds);
  placed.forEach((a, i) => {
    for (let j = i + 1; j < placed.length; j++) {
      const [p, q] = [boxes[i]!, boxes[j]!];
      const apart = [0, 1].some((k) => p.from[k]! - q.to[k]! >= 2 * gap || q.from[k]! - p.to[k]! >= 2 * gap);
      if (apart) continue;
      const { distance } = outlineToOutline(a, placed[j]!);
      if (distance < gap - 1e-6) {
        throw new Error(
          `${pieces[i]!.part.name} and ${pieces[j]!.part.name} lie ${distance} mm apart on the sheet, less than ${gap} mm`,
        );
      }
    }
  });
}
