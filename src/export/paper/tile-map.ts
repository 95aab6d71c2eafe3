import type { Vec2 } from '../../geometry/vec2.js';
import type { Doc } from './document.js';
import type { Tile, Tiling } from './tiles.js';
import { BODY, widthOfWords, words } from './words.js';

/** Largest cell of the map, mm. */
const CELL = 7;

/** Which tile this is among all, within a box of the page: its upper right corner and its size, mm. */
export function tileMap(doc: Doc, { columns, rows, tiles, page }: Tiling, tile: Tile, corner: Vec2, room: Vec2): void {
  const tall = Math.min(room[1] / rows, CELL, room[0] / columns / 1.2);
  const size: Vec2 = [tall * (page[0] < page[1] ? 0.8 : 1.2), tall];
  const left = corner[0] - columns * size[0];
  const named = tiles.every((t) => widthOfWords(doc, t.name, BODY) < size[0]) && tall > BODY;
  doc.lineWidth(0.15);
  for (const t of tiles) {
    const [x, y] = [left + t.column * size[0], corner[1] + t.row * size[1]];
    doc.rect(x, y, size[0], size[1]);
    if (t === tile) doc.fillAndStroke('#bbbbbb', 'black');
    else doc.stroke();
    doc.fillColor('black');
    if (named) words(doc, t.name, x + size[0] / 2, y + size[1] / 2 + 1.1, BODY, 'center');
  }
}
