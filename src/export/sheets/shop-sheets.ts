import type { OutputFile } from '../output-file.js';
import { endedBytes, paperDocument } from '../paper/document.js';
import { patternPrint } from '../paper/pattern-pdf.js';
import { addTilePages, tiledPrint } from '../paper/tile-pages.js';
import { collectorSheet } from './collector-sheet.js';
import { cover } from './cover.js';
import { flangeSheet } from './flange-sheet.js';
import { patternIndex } from './pattern-index.js';
import type { SheetInput } from './sheet-input.js';
import { type Stamp, sheetSet, stampSheets } from './sheet-set.js';
import { stockSheet } from './stock-sheet.js';
import { tubeSheet } from './tube-sheet.js';

/**
 * The shop sheets as one document, sheets.pdf: summary, a sheet of every tube, collector and flange, stock, and the patterns at
 * 1:1. The same header gives the same bytes.
 */
export function shopSheets(input: SheetInput): OutputFile {
  const { plan, primaries, secondaries, cuts, bill } = input;
  const { paper } = plan.drawing;
  const doc = paperDocument(`${plan.name}: shop sheets`);
  const stamp: Stamp = { plan: plan.name, hash: plan.hash };
  const set = sheetSet(doc, paper, stamp);
  cover(set, input);
  for (const tube of [...primaries, ...secondaries]) {
    tubeSheet(set, input, tube, cuts.find((c) => c.tube === tube.id)!);
  }
  input.collectors.forEach((_, i) => {
    collectorSheet(set, input, i);
  });
  for (const flange of input.flanges) flangeSheet(set, input, flange);
  if (bill !== null) stockSheet(set, bill, plan.units);
  const patterns = input.patterns.map((pattern) => ({
    pattern,
    tiled: tiledPrint(doc, patternPrint(pattern, stamp), paper),
  }));
  if (patterns.length > 0) patternIndex(set, patterns, plan.units);
  const tiles = patterns.reduce((sum, { tiled }) => sum + tiled.tiling.tiles.length, 0);
  const count = set.titles.length + tiles;
  let page = set.titles.length;
  for (const { tiled } of patterns) {
    const before = page;
    addTilePages(doc, tiled, (i) => `page ${before + i + 1} of ${count}`);
    page += tiled.tiling.tiles.length;
  }
  stampSheets(set, count);
  return { path: 'sheets.pdf', kind: 'sheets', bytes: endedBytes(doc) };
}
