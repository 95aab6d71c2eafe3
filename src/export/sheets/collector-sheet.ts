import { sentence } from '../../params/faults/wording.js';
import { inches } from '../../params/units.js';
import type { Collector } from '../../parts/collector/collector.js';
import type { Fact } from '../../parts/collector/fact.js';
import { collectorFacts } from '../../parts/collector/facts.js';
import { type Block, beside, paragraph, space, stacked } from './block.js';
import { collectorEnd } from './collector-end.js';
import { collectorSide } from './collector-side.js';
import type { SheetInput } from './sheet-input.js';
import { fixed, lengthWords, type Units } from './sheet-numbers.js';
import { addSheet, roomOf, type SheetSet } from './sheet-set.js';
import { type Cell, type Column, table } from './table.js';

/** Height of the views, mm: beside the numbers on one page, and where the numbers need a page of their own. */
const LEAST_VIEWS = 64;
const MOST_VIEWS = 100;
const ALONE = 150;

/** The sheet of a collector: two views, what arrives at its inlets, its numbers. */
export function collectorSheet(set: SheetSet, input: SheetInput, index: number): void {
  const { doc, width } = set;
  const { units } = input.plan;
  const collector = input.collectors[index]!;
  const arriving = [...input.primaries, ...input.secondaries].filter((t) => t.collector === index);
  const tubeAt = (inlet: number) => arriving.find((t) => t.inlet === inlet);
  const inlets = collector.geometry.cuts.map((_, i) => tubeAt(i + 1));
  const short = inlets.map((t) =>
    t === undefined ? '' : 'cylinder' in t ? `cyl ${t.id}` : t.id.length < 9 ? t.id : '',
  );
  const right = 0.36 * width;
  const third = (width - 16) / 3;
  const facts = collectorFacts(collector);
  const factTable = (some: readonly Fact[]): Block[] =>
    table(
      doc,
      FACTS,
      some.map((f) => factRow(f, units)),
      third,
    );
  const inletRows = inlets.map((t, i): Cell[] => [String(i + 1), t?.name ?? '-', '', '']);
  // the facts that two columns leave stand under the inlets, so that all three are about as high
  const each = Math.min(facts.length, Math.ceil((facts.length + inletRows.length + 3) / 3));
  const rest = facts.slice(2 * each);
  const tables = beside([
    { x: 0, block: stacked(factTable(facts.slice(0, each))) },
    { x: third + 8, block: stacked(factTable(facts.slice(each, 2 * each))) },
    {
      x: 2 * third + 16,
      block: stacked([
        ...table(doc, INLETS, inletRows, third),
        ...(rest.length === 0 ? [] : [space(3), ...factTable(rest)]),
      ]),
    },
  ]);
  const notes = [
    space(2),
    ...[...notesOf(collector, units), ...collector.notes.map(sentence)].flatMap((line) => paragraph(doc, line, width)),
    ...CAUTION.flatMap((line) => paragraph(doc, line, width, '!')),
  ];
  const below = [tables, ...notes].reduce((sum, b) => sum + b.height, 0);
  const together = Math.max(LEAST_VIEWS, Math.min(MOST_VIEWS, roomOf(set) - below - 1));
  const tall = together + tables.height <= roomOf(set) ? together : ALONE;
  const views = beside([
    { x: 0, block: collectorSide(collector.geometry, width - right, tall, units) },
    { x: width - right, block: collectorEnd(collector, short, right, tall) },
  ]);
  addSheet(set, `Collector: ${collector.plan.name}`, [views, tables, ...notes]);
}

const CAUTION = [
  'Cutting and welding: eyes, ears, lungs, hands; extract fume at the source, purge gas displaces air. The printed collector is for mock-up only: never weld on it or run the engine with it.',
];

const FACTS: readonly Column[] = [
  { head: 'what', align: 'left' },
  { head: 'value', align: 'right', key: true },
  { head: 'unit', align: 'left' },
];

const INLETS: readonly Column[] = [
  { head: 'inlet', align: 'left', key: true },
  { head: 'tube', align: 'left' },
  { head: 'fitted', align: 'center', fill: 'box' },
  { head: 'welded', align: 'center', fill: 'box' },
];

function factRow({ label, value, unit, digits }: Fact, units: Units): Cell[] {
  const plain = fixed(value, digits);
  if (unit !== 'mm' || units === 'mm') return [label, plain, unit];
  return [label, [plain, `${fixed(inches(value), digits + 2)} in`], unit];
}

function notesOf({ plan, geometry: g }: Collector, units: Units): string[] {
  const size = (r: number): string => lengthWords(2 * r, 1, units);
  const lines = [
    `Inlet tubes ${size(g.outside)} outside, ${lengthWords(g.outside - g.bore, 2, units)} wall; outlet ${size(g.outletOutside)} outside, ${lengthWords(g.outletOutside - g.outletBore, 2, units)} wall; gap between inlets ${lengthWords(plan.inletGap, 1, units)}.`,
  ];
  if (g.cuts[0]!.planes.length > 0) {
    lines.push(
      'Each inlet tube is cut by two planes through the axis of the collector. Where a cut begins, meets the other and ends is measured along the outside of the tube from its inlet end.',
    );
  }
  return lines;
}
