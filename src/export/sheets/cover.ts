import { spreadOf } from '../../checks/equal-length.js';
import type { Finding } from '../../checks/finding.js';
import { shortHash } from '../../params/text/plan-hash.js';
import type { StockBill } from '../../parts/stock/bill.js';
import type { RoutedTube } from '../../routing/routed.js';
import { CAUTIONS } from '../cautions.js';
import type { Doc } from '../paper/document.js';
import { BODY, words, wrapped } from '../paper/words.js';
import { type Block, beside, heading, paragraph, space, stacked } from './block.js';
import { headerViews } from './header-views.js';
import type { SheetInput } from './sheet-input.js';
import { fixed, lengthLines, lengthWords, type Units } from './sheet-numbers.js';
import { addSheet, roomOf, type SheetSet } from './sheet-set.js';
import { type Cell, type Column, table } from './table.js';

/** Share of the cover's width that the picture takes. */
const PICTURE = 0.47;

/** The first sheet: the plan, the verdict, a picture, every length against its target, what the checks found, cautions. */
export function cover(set: SheetSet, input: SheetInput): void {
  const { doc, width } = set;
  const left = width * PICTURE;
  const gap = 6;
  const right = width - left - gap;
  const top = [
    ...wrapped(doc, input.plan.name, width, 7, true).map((line) => big(line)),
    ...wrapped(doc, input.verdict, width, 4.25).map((line) => verdictLine(line)),
    idLine(width, shortHash(input.plan.hash)),
  ];
  const equal = equalLength(doc, input, right);
  const used = top.reduce((sum, b) => sum + b.height, 0);
  const room = roomOf(set) - used;
  const tall = equal.reduce((sum, b) => sum + b.height, 0);
  const rest = [...findingBlocks(doc, input, width), ...billBlocks(doc, input, width), ...cautionBlocks(doc, width)];
  if (tall <= room) {
    const picture = headerViews(input, left, room);
    const page = beside([
      { x: 0, block: picture },
      { x: left + gap, block: stacked(equal) },
    ]);
    addSheet(set, 'Summary', [...top, page, ...rest]);
  } else {
    const all = equalLength(doc, input, width);
    addSheet(set, 'Summary', [...top, headerViews(input, width, room), ...all, space(3), ...rest]);
  }
}

const big = (line: string): Block => ({
  height: 8.6,
  draw: (doc, [x, y]) => words(doc, line, x, y + 5.6, 7, 'left', true),
});

const verdictLine = (line: string): Block => ({
  height: 5.6,
  draw: (doc, [x, y]) => words(doc, line, x, y + 3.8, 4.25),
});

/** The hash, and room for name and date. */
const idLine = (width: number, hash: string): Block => ({
  height: 9,
  draw: (doc, [x, y]) => {
    words(doc, `Plan ${hash} (first digits of its SHA-256)`, x, y + 4.6, BODY);
    const at = x + width / 2;
    words(doc, 'built by', at, y + 4.6, BODY);
    words(doc, 'date', at + width * 0.3, y + 4.6, BODY);
    doc
      .lineWidth(0.2)
      .moveTo(at + 13, y + 5.4)
      .lineTo(at + width * 0.3 - 3, y + 5.4)
      .stroke();
    doc
      .moveTo(at + width * 0.3 + 8, y + 5.4)
      .lineTo(x + width, y + 5.4)
      .stroke();
  },
});

const COLUMNS: readonly Column[] = [
  { head: 'tube', align: 'left' },
  { head: 'to', align: 'left' },
  { head: 'target', align: 'right' },
  { head: 'length', align: 'right', key: true },
  { head: 'difference', align: 'right' },
  { head: 'within tolerance', align: 'center', least: 30 },
];

/** Every tube against its target and the spread against what is allowed. */
function equalLength(doc: Doc, { plan, primaries, secondaries }: SheetInput, width: number): Block[] {
  const groups: { title: string; tubes: readonly RoutedTube[]; tolerance: number }[] = [
    { title: 'Primaries', tubes: primaries, tolerance: plan.runners.tolerance },
    ...(plan.secondaries === null
      ? []
      : [{ title: 'Secondaries', tubes: secondaries, tolerance: plan.secondaries.tolerance }]),
  ];
  return groups.flatMap(({ title, tubes, tolerance }) => {
    const rows = tubes.map((t): Cell[] => [
      t.name,
      `${plan.collectors.length > 1 ? `${plan.collectors[t.collector]!.name}, ` : ''}inlet ${t.inlet}`,
      lengthLines(t.target, 2, plan.units),
      lengthLines(t.length, 2, plan.units),
      signed(t.length - t.target),
      { draw: (page, x, y, w, h) => toleranceBar(page, t.length - t.target, tolerance, x, y, w, h) },
    ]);
    const spread = spreadOf(tubes.map((t) => t.length));
    const line = `Spread ${lengthWords(spread, 3, plan.units)}, longest less shortest; ${lengthWords(tolerance, 3, plan.units)} allowed. Length is the centreline, flange thickness included; the grey band is the target plus and minus what is allowed.`;
    return [
      heading(`${title}: lengths`),
      ...table(doc, COLUMNS, rows, width),
      space(1),
      ...paragraph(doc, line, width),
      space(2),
    ];
  });
}

const signed = (value: number): string => {
  const text = fixed(value, 3);
  return Number(text) > 0 ? `+${text}` : text;
};

/** The tolerance as a grey band about the target, the tube as a mark in it. */
function toleranceBar(doc: Doc, off: number, tolerance: number, x: number, y: number, w: number, h: number): void {
  const span = Math.max(1.5 * tolerance, 1.2 * Math.abs(off), 1e-9);
  const middle = x + w / 2;
  const at = (value: number): number => middle + (value / span) * (w / 2 - 2);
  doc
    .lineWidth(0.2)
    .rect(at(-tolerance), y + h / 2 - 1.6, at(tolerance) - at(-tolerance), 3.2)
    .fillAndStroke('#dddddd', '#555555');
  doc
    .strokeColor('#555555')
    .moveTo(x + 2, y + h / 2)
    .lineTo(x + w - 2, y + h / 2)
    .stroke();
  doc
    .strokeColor('black')
    .lineWidth(0.2)
    .moveTo(middle, y + h / 2 - 2.2)
    .lineTo(middle, y + h / 2 + 2.2)
    .stroke();
  const mark = at(off);
  doc
    .moveTo(mark, y + h / 2 - 2.2)
    .lineTo(mark + 1.3, y + h / 2)
    .lineTo(mark, y + h / 2 + 2.2)
    .lineTo(mark - 1.3, y + h / 2)
    .closePath();
  doc.fill('black').fillColor('black');
}

const WORD = { fail: 'FAILS', warn: 'LOOK', ok: 'ok' } as const;

/** What breaks a limit or wants a look. */
function findingBlocks(doc: Doc, { findings }: SheetInput, width: number): Block[] {
  const told = [...findings.filter((f) => f.level === 'fail'), ...findings.filter((f) => f.level === 'warn')];
  if (told.length === 0)
    return [...paragraph(doc, `All ${findings.length} checks hold; none asks for a look.`, width), space(3)];
  return [
    heading(
      `Checks: ${count(findings, 'fail')} fail, ${count(findings, 'warn')} to look at, ${count(findings, 'ok')} hold`,
    ),
    ...told.flatMap((f) => findingLines(doc, f, width)),
    space(3),
  ];
}

const count = (findings: readonly Finding[], level: Finding['level']): number =>
  findings.filter((f) => f.level === level).length;

function findingLines(doc: Doc, f: Finding, width: number): Block[] {
  const indent = 16;
  const lines = paragraph(doc, `${f.place}: ${f.message}`, width - indent);
  return lines.map((line, i) => ({
    ...line,
    draw: (page, [x, y]) => {
      if (i === 0) words(page, WORD[f.level], x, y + 3.2, BODY, 'left', true);
      line.draw(page, [x + indent, y]);
    },
  }));
}

/** What the stock bill comes to. */
function billBlocks(doc: Doc, { plan, bill }: SheetInput, width: number): Block[] {
  if (bill === null) return [];
  return [heading('Stock'), ...billLines(bill, plan.units).flatMap((line) => paragraph(doc, line, width)), space(3)];
}

/** The stock bill in a few lines. */
export function billLines(bill: StockBill, units: Units): string[] {
  const price = bill.price === null ? '' : `, ${fixed(bill.price, 2)} ${bill.currency ?? ''}`.trimEnd();
  const proven = bill.optimal ? 'proven the least' : `at least ${fixed(bill.bound, 2)} is needed`;
  const made = bill.minimised === 'price' ? 'price' : 'number of pieces';
  const estimates = [
    bill.tubeMass === null ? null : `tubes ${fixed(bill.tubeMass, 2)} kg`,
    `welds ${lengthWords(bill.weldLength, 0, units)}`,
    bill.fillerMass === null ? null : `filler about ${fixed(bill.fillerMass, 3)} kg`,
    `gas to fill all tubes once about ${fixed(bill.purgeVolume, 1)} l`,
  ];
  return [
    `${bill.uses.length} pieces of stock${price}; least ${made}: ${fixed(bill.value, bill.minimised === 'price' ? 2 : 0)}, ${proven}.`,
    `${estimates.filter((e) => e !== null).join('; ')}.`,
    ...bill.unmade.map((u) => `Piece ${u.piece} is made of no stock of the plan: ${u.why}`),
  ];
}

const cautionBlocks = (doc: Doc, width: number): Block[] => [
  heading('Cautions'),
  ...CAUTIONS.flatMap((line) => paragraph(doc, line, width, '!')),
];
