import { cosSinDegrees } from '../../geometry/angle.js';
import { type Shadow, shadowArea, shadowBox, turnedShadow } from '../../geometry/mesh/shadow.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { type Footprint, footprintOf, halfTurned, type Raster, rasterOf } from './footprint.js';
import { emptyPlate, freeColumn, type PlateRaster, take } from './plate-raster.js';

/** Where a shadow lies on a build plate: turned about its own origin, counter-clockwise, then moved; the bed's low corner is the origin. */
export interface Laid {
  /** Its number in the list that was packed. */
  readonly item: number;
  /** Number of the plate, from 0. */
  readonly plate: number;
  /** Degrees. */
  readonly turn: number;
  /** mm. */
  readonly by: Vec2;
}

export interface Packing {
  readonly laid: readonly Laid[];
  readonly plates: number;
  /** No packing whatever uses fewer plates: what the areas alone ask for. */
  readonly bound: number;
  /** Numbers of what does not fit the bed at any of the turns tried. */
  readonly tooBig: readonly number[];
  /** Area of each shadow in the list, mm2. */
  readonly areas: readonly number[];
}

/** Turns tried for every part, degrees. Finer ones took twice the time and saved no plate of any template (measured). */
const TURN = 45;

/** Most rows of a plate looked at over all orders tried: a count, not a time, so that the same parts lie the same way. */
const MOST_ROWS = 400_000;

interface Item {
  readonly number: number;
  readonly area: number;
  readonly box: Vec2;
  /** Those turns at which it fits the bed. */
  readonly turns: readonly { readonly turn: number; readonly footprint: Footprint }[];
}

/** Orders in which parts are laid; the first is the usual one, falling area (Johnson 1973, first-fit decreasing, from memory). */
const ORDERS: readonly ((i: Item) => number)[] = [(i) => i.area, (i) => Math.max(...i.box), (i) => i.box[0] + i.box[1]];

/**
 * Lays shadows on as few beds of that size, mm, as it finds, no two nearer than `gap` mm: every part in turn goes on the first
 * plate with room for it, turned by a multiple of 45 degrees, where its far side comes lowest. Of several orders the one that
 * needs fewest plates is kept, of these the one that leaves the last plate emptiest.
 */
export function packed(shadows: readonly Shadow[], bed: Vec2, gap: number): Packing {
  const raster = rasterOf(bed);
  const all = shadows.map((s, i) => itemOf(s, i, raster));
  const items = all.filter((i) => i.turns.length > 0);
  const bound = platesByArea(items, bed, gap);
  const budget = { rows: MOST_ROWS };
  let best: Order | null = null;
  for (const size of ORDERS) {
    if (best !== null && (best.plates <= bound || budget.rows <= 0)) break;
    const order = [...items].sort((a, b) => size(b) - size(a) || a.number - b.number);
    const found = firstFit(order, raster, gap, budget);
    if (best === null || isLess(found, best)) best = found;
  }
  return {
    laid: [...(best?.laid ?? [])].sort((a, b) => a.plate - b.plate || a.item - b.item),
    plates: best?.plates ?? 0,
    bound,
    tooBig: all.filter((i) => i.turns.length === 0).map((i) => i.number),
    areas: all.map((i) => i.area),
  };
}

const isLess = (a: Order, b: Order): boolean => a.plates < b.plates || (a.plates === b.plates && a.last < b.last);

function itemOf(shadow: Shadow, number: number, raster: Raster): Item {
  const { low, high } = shadowBox(shadow);
  const turns = Array.from({ length: 180 / TURN }, (_, k) => {
    const footprint = footprintOf(turnedShadow(shadow, ...cosSinDegrees(k * TURN)), raster);
    return [
      { turn: k * TURN, footprint },
      { turn: k * TURN + 180, footprint: halfTurned(footprint, raster) },
    ];
  }).flat();
  return {
    number,
    area: shadowArea(shadow),
    box: [high[0] - low[0], high[1] - low[1]],
    turns: turns.filter(({ footprint: f }) => f.columns <= raster.columns && f.rows <= raster.rows),
  };
}

/**
 * Fewest beds by area: parts grown by half the gap all round do not overlap and lie within the bed grown as much. A region of
 * area A grown by r has at least the area (sqrt A + r sqrt pi)^2 (Brunn and Minkowski); a thousandth is left for measuring.
 */
function platesByArea(items: readonly Item[], bed: Vec2, gap: number): number {
  const r = gap / 2;
  const need = items.reduce((sum, { area }) => sum + (Math.sqrt(area) + r * Math.sqrt(Math.PI)) ** 2, 0);
  return Math.ceil((0.999 * need) / ((bed[0] + gap) * (bed[1] + gap)));
}

interface Order {
  readonly laid: readonly Laid[];
  readonly plates: number;
  /** Area of the parts on the last plate, mm2. */
  readonly last: number;
}

function firstFit(order: readonly Item[], raster: Raster, gap: number, budget: { rows: number }): Order {
  const plates: PlateRaster[] = [];
  const areas: number[] = [];
  const laid = order.map((item): Laid => {
    for (let p = 0; ; p++) {
      if (p === plates.length) plates.push(emptyPlate(raster));
      const found = lowest(plates[p]!, item, budget);
      if (found === null) continue;
      const { turn, footprint } = item.turns[found.turn]!;
      take(plates[p]!, footprint, found.column, found.row, gap);
      areas[p] = (areas[p] ?? 0) + item.area;
      const { cell } = raster;
      const by: Vec2 = [found.column * cell[0] - footprint.low[0], found.row * cell[1] - footprint.low[1]];
      return { item: item.number, plate: p, turn, by };
    }
  });
  return { laid, plates: plates.length, last: areas[areas.length - 1] ?? 0 };
}

interface Place {
  /** Number in the item's turns. */
  readonly turn: number;
  readonly column: number;
  readonly row: number;
}

/** Where the far side of a part comes lowest, then furthest left; null when the plate has no room. */
function lowest(plate: PlateRaster, { turns }: Item, budget: { rows: number }): Place | null {
  let best: Place | null = null;
  let [top, right] = [plate.raster.rows + 1, plate.raster.columns + 1];
  turns.forEach(({ footprint }, turn) => {
    for (let row = 0; row + footprint.rows <= Math.min(top, plate.raster.rows); row++) {
      budget.rows--;
      const column = freeColumn(plate, footprint, row);
      if (column < 0) continue;
      const better = row + footprint.rows < top || column + footprint.columns < right;
      if (better) [best, top, right] = [{ turn, column, row }, row + footprint.rows, column + footprint.columns];
      break;
    }
  });
  return best;
}
