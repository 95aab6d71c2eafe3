import type { OutputFile } from '../output-file.js';
import { endedBytes, paperDocument } from '../paper/document.js';
import { cover } from './cover.js';
import type { SheetInput } from './sheet-input.js';
import { sheetSet, stampSheets } from './sheet-set.js';
import { tubeSheet } from './tube-sheet.js';

/** The shop sheets as one document: sheets.pdf. The same header gives the same bytes. */
export function shopSheets(input: SheetInput): OutputFile {
  const { plan, primaries, secondaries, cuts } = input;
  const doc = paperDocument(`${plan.name}: shop sheets`);
  const set = sheetSet(doc, plan.drawing.paper, { plan: plan.name, hash: plan.hash });
  cover(set, input);
  for (const tube of [...primaries, ...secondaries]) {
    const own = cuts.find((c) => c.tube === tube.id);
    if (own !== undefined) tubeSheet(set, input, tube, own);
  }
  stampSheets(set, set.titles.length);
  return { path: 'sheets.pdf', kind: 'sheets', bytes: endedBytes(doc) };
}
