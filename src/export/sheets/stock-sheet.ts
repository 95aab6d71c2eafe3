import type { StockBill, StockItem, StockUse } from '../../parts/stock/bill.js';
import type { Doc } from '../paper/document.js';
import { BODY, LEADING, widthOfWords, words, wrapped } from '../paper/words.js';
import { type Block, beside, heading, paragraph, space } from './block.js';
import { billLines } from './cover.js';
import { scaleThatFits, scaleWords } from './scale.js';
import { fixed, lengthLines, lengthWords, type Units } from './sheet-numbers.js';
import { addSheet, type SheetSet } from './sheet-set.js';
import { spreadApart } from './spread.js';
import { type Cell, type Column, table } from './table.js';

/** Height of a bar of stock, mm. */
const BAR = 6;

/** Room for lines from a bar to its labels, mm. */
const LEADER = 5;

/** White between columns of bars, mm. */
const COLUMN_GAP = 10;

/** The sheets of stock: what to buy, and every piece of stock to scale with what is cut from it. */
export function stockSheet(set: SheetSet, bill: StockBill, units: Units): void {
  const { doc, width } = set;
  const sticks = bill.uses.filter((u) => u.item.bend === null);
  const bent = bill.uses.filter((u) => u.item.bend !== null);
  addSheet(set, 'Stock and saw list', [
    heading('To buy'),
    ...table(doc, SHOPPING, shoppingRows(bill, units), width),
    space(2),
    ...billLines(bill, units).flatMap((line) => paragraph(doc, line, width)),
    ...CAUTION.flatMap((line) => paragraph(doc, line, width, '!')),
    space(3),
    ...barBlocks(
      doc,
      'Bent stock unrolled along its centreline, bends grey; marks in mm from the end at the left',
      bent,
      2,
      width,
      units,
    ),
    ...barBlocks(doc, 'Straight stock; lengths in mm, cut in order from the left', sticks, 1, width, units),
  ]);
}

const CAUTION = [
  'Saw: clamp the stock, let the blade stop, deburr. Eyes, ears, hands. Check the list against the stock before the first cut.',
];

const SHOPPING: readonly Column[] = [
  { head: 'pieces', align: 'right', key: true },
  { head: 'stock', align: 'left' },
  { head: 'od x wall', align: 'right' },
  { head: 'material', align: 'left' },
  { head: 'whole length', align: 'right' },
  { head: 'price', align: 'right' },
  { head: 'bought', align: 'center', fill: 'box' },
];

const shoppingRows = ({ shopping, currency }: StockBill, units: Units): Cell[][] =>
  shopping.map(({ item, count, price }) => [
    String(count),
    item.name,
    sizeLines(item, units),
    item.material,
    lengthLines(item.length, 0, units),
    price === null ? '-' : `${fixed(price, 2)} ${currency ?? ''}`.trimEnd(),
    '',
  ]);

function sizeLines({ od, wall }: StockItem, units: Units): readonly string[] {
  const [a, b] = [lengthLines(od, 1, units), lengthLines(wall, 2, units)];
  return units === 'mm' ? [`${a[0]} x ${b[0]}`] : [`${a[0]} x ${b[0]}`, `${a[1]!.replace(' in', '')} x ${b[1]}`];
}

/** Bars in so many columns, at one scale. */
function barBlocks(
  doc: Doc,
  title: string,
  uses: readonly StockUse[],
  columns: number,
  width: number,
  units: Units,
): Block[] {
  if (uses.length === 0) return [];
  const longest = Math.max(...uses.map((u) => u.item.length));
  const cell = (width - (columns - 1) * COLUMN_GAP) / columns;
  const k = scaleThatFits((s) => longest * s <= cell - 1);
  const rows = Array.from({ length: Math.ceil(uses.length / columns) }, (_, r) =>
    beside(
      uses.slice(r * columns, (r + 1) * columns).map((use, i) => ({
        x: i * (cell + COLUMN_GAP),
        block: useBlock(doc, use, k, cell, units),
      })),
    ),
  );
  return [heading(`${title}, ${scaleWords(k)}`), ...rows, space(2)];
}

/** One piece of stock as a bar: what is cut from it, where each cut begins and ends, what is left. */
function useBlock(doc: Doc, use: StockUse, k: number, width: number, units: Units): Block {
  const { number, item, cuts, offcut } = use;
  const title = `${number}.  ${item.name}; longest left over ${lengthWords(offcut, 1, units)}`;
  const titles = wrapped(doc, title, width - 12, BODY);
  const labels = cuts.map((c) => [
    `${c.piece}${c.reversed ? ' (turned)' : ''}`,
    item.bend === null ? fixed(c.to - c.from, 1) : `${fixed(c.from, 1)} to ${fixed(c.to, 1)}`,
  ]);
  const widths = labels.map((l) => Math.max(...l.map((line) => widthOfWords(doc, line, BODY, true))) + 3);
  const rows = rowsOf(widths, width);
  const below = LEADER + rows.length * (2 * LEADING + 0.6);
  const top = titles.length * LEADING + 1.5;
  return {
    height: top + BAR + below + 2,
    draw: (page, [x, y]) => {
      page
        .lineWidth(0.25)
        .rect(x, y + 0.4, 4, 4)
        .stroke();
      titles.forEach((line, i) => {
        words(page, line, x + 7, y + 3.4 + i * LEADING, BODY);
      });
      const bar = y + top;
      drawBar(page, item, x, bar, k);
      for (const c of cuts) {
        page
          .lineWidth(0.4)
          .rect(x + c.from * k, bar, (c.to - c.from) * k, BAR)
          .fillAndStroke('white', 'black');
        if (item.bend !== null)
          bendPart(page, item.bend.leg, item.bend.leg + item.bend.clr * item.bend.angle, c, x, bar, k);
      }
      page.fillColor('black');
      rows.forEach(([from, to], row) => {
        const some = cuts.slice(from, to);
        const wanted = some.map((c, i) => ({ at: x + ((c.from + c.to) / 2) * k, width: widths[from + i]! }));
        const places = spreadApart(wanted, x, x + width);
        const first = bar + BAR + LEADER + row * (2 * LEADING + 0.6);
        some.forEach((c, i) => {
          const middle = x + ((c.from + c.to) / 2) * k;
          if (row === 0) {
            page
              .lineWidth(0.15)
              .moveTo(middle, bar + BAR)
              .lineTo(middle, bar + BAR + 1)
              .lineTo(places[i]!, first)
              .stroke();
          }
          labels[from + i]!.forEach((line, n) => {
            words(page, line, places[i]!, first + 3.2 + n * LEADING, BODY, 'center', n === 0);
          });
        });
      });
    },
  };
}

/** Labels in as many rows as they need, in order: where each row begins and ends. */
function rowsOf(widths: readonly number[], room: number): (readonly [number, number])[] {
  const rows: [number, number][] = [[0, 0]];
  let used = 0;
  widths.forEach((w, i) => {
    if (used + w > room) {
      rows.push([i, i]);
      used = 0;
    }
    used += w;
    rows.at(-1)![1] = i + 1;
  });
  return rows;
}

/** The bent part of what is cut from bent stock, in grey. */
function bendPart(
  doc: Doc,
  from: number,
  to: number,
  cut: { from: number; to: number },
  x: number,
  y: number,
  k: number,
): void {
  const [a, b] = [Math.max(from, cut.from), Math.min(to, cut.to)];
  if (b - a < 1e-6) return;
  doc
    .lineWidth(0.2)
    .rect(x + a * k, y, (b - a) * k, BAR)
    .fillAndStroke('#cccccc', 'black');
}

/** The stock itself, hatched: what no cut covers is left over. */
function drawBar(doc: Doc, item: StockItem, x: number, y: number, k: number): void {
  const w = item.length * k;
  doc.save().rect(x, y, w, BAR).clip().lineWidth(0.12).strokeColor('#888888');
  for (let t = -BAR; t < w; t += 2.2) {
    doc
      .moveTo(x + t, y + BAR)
      .lineTo(x + t + BAR, y)
      .stroke();
  }
  doc.restore();
  doc.lineWidth(0.2).rect(x, y, w, BAR).stroke();
}
