import { BOOK, bookFile } from './export/book/book.js';
import type { BookPage } from './export/book/book-input.js';
import type { BookSection } from './export/book/book-section.js';
import { sceneOf } from './export/book/scene.js';
import { alternativeFiles, alternativeOf } from './export/csv/alternatives.js';
import { bendTable, secondaryBendTable } from './export/csv/bend-table.js';
import { cutListTable } from './export/csv/cut-list.js';
import { jointsTable } from './export/csv/joints.js';
import { ledgesTable } from './export/csv/ledges.js';
import { lengthsTable } from './export/csv/lengths.js';
import { platesTable } from './export/csv/plates-table.js';
import { printPlatesTable } from './export/csv/print-plates-table.js';
import { shoppingList } from './export/csv/shopping-list.js';
import { stockTable } from './export/csv/stock-table.js';
import { tubeTotalsTable } from './export/csv/tube-totals.js';
import { flatDxf } from './export/dxf/flat-dxf.js';
import { patternDxf } from './export/dxf/pattern-dxf.js';
import { sheetDxf } from './export/dxf/sheet-dxf.js';
import { headerStl } from './export/header-stl.js';
import type { OutputFile } from './export/output-file.js';
import { flatPdf } from './export/paper/flat-pdf.js';
import { patternPdf } from './export/paper/pattern-pdf.js';
import { stlFiles } from './export/print/stl.js';
import { shopSheets } from './export/sheets/shop-sheets.js';
import { summaryFile, summaryOf } from './export/summary/summary.js';
import type { Summary } from './export/summary/summary-schema.js';
import { flatSvg } from './export/svg/flat-svg.js';
import { overviewSvg } from './export/svg/overview-svg.js';
import { patternSvg } from './export/svg/pattern-svg.js';
import { sheetSvg } from './export/svg/sheet-svg.js';
import type { Plan } from './params/plan.js';
import { type FlatParts, flatPartsOf } from './parts/plates/flat-parts.js';
import { layOut } from './parts/plates/sheet.js';
import { tubeDensity } from './parts/stock/estimates.js';
import { type BuiltHeader, type Progress, type RoutedHeader, silent, verdictOf } from './pipeline.js';
import { tuningFiles, tuningOf, tuningSections } from './tune.js';
import type { SweepResult } from './tuning/engine/results.js';

/** A built header as files, and the summary that lists them: it is the first of them too. */
export interface Outputs {
  /** In the order they are written; nothing is written here. */
  readonly files: readonly OutputFile[];
  /** The same as summary.json. */
  readonly summary: Summary;
}

/**
 * The files of a built header and the summary that lists them. `page` brings what the build book needs from the disk, and sections of
 * other stages; without it there is no book. `sweeps` is the gas where it was calculated.
 */
export function outputsOf(
  built: BuiltHeader,
  alternatives: readonly RoutedHeader[] = [],
  progress: Progress = silent,
  page: (BookPage & { readonly sections?: readonly BookSection[] }) | null = null,
  sweeps: readonly SweepResult[] = [],
): Outputs {
  const { plan, primaries, secondaries, flanges, collectors } = built;
  const compared = alternatives.length > 0 ? [built, ...alternatives] : [];
  progress('writing the files');
  const geometry = collectors.map((c) => c.geometry);
  const flat = flatPartsOf(plan, flanges);
  const stamp = { plan: plan.name, hash: plan.hash };
  const tuning = tuningOf(built, sweeps);
  const files = [
    ...flatFiles(plan, flat),
    lengthsTable(plan, primaries),
    ledgesTable(flanges),
    cutListTable(built.cuts),
    jointsTable(built.cuts),
    tubeTotalsTable(built.cuts),
    stockTable(built.bill),
    shoppingList(built.bill, tubeDensity(plan)),
    bendTable(primaries),
    ...(secondaries.length > 0 ? [secondaryBendTable(secondaries)] : []),
    overviewSvg({ plan, primaries, secondaries, flanges, collectors: geometry, verdict: verdictOf(built) }),
    shopSheets({ ...built, verdict: verdictOf(built) }),
    ...(compared.length > 0 ? alternativeFiles(compared) : []),
    ...built.patterns.flatMap((p) => [
      patternDxf(p, plan.drawing),
      patternSvg(p),
      patternPdf(p, plan.drawing.paper, stamp),
    ]),
    ...stlFiles([...collectors.map((c) => c.part), ...built.collectorAids, ...built.jigs, ...built.coupon]),
    headerStl(built),
    ...built.plateFiles,
    printPlatesTable(built.printPlates, plan.jig.print, built.findings),
    ...tuningFiles(tuning),
  ];
  const rows = compared.map((h, i) => alternativeOf(h, i + 1));
  const listed = page === null ? files : [...files, { ...BOOK, bytes: new Uint8Array() }];
  const summary = summaryOf({ ...built, plates: flat.plates, alternatives: rows }, listed);
  const book =
    page === null
      ? []
      : [
          bookFile({
            ...built,
            summary,
            verdict: verdictOf(built),
            files,
            scene: sceneOf(built),
            page,
            sections: [...tuningSections(tuning), ...(page.sections ?? [])],
          }),
        ];
  return { files: [summaryFile(summary), ...files, ...book], summary };
}

/** What the cutter gets: each part as a drawing, a picture and a print at 1:1; plates in numbers; sheets of parts. */
function flatFiles({ drawing }: Plan, { all, plates }: FlatParts): OutputFile[] {
  const sheets = drawing.sheet === null ? [] : layOut(all, drawing.sheet).sheets;
  return [
    ...all.flatMap((part) => [flatDxf(part, drawing), flatSvg(part), flatPdf(part, drawing.paper)]),
    ...(plates.length > 0 ? [platesTable(plates)] : []),
    ...sheets.flatMap((sheet) => [sheetDxf(sheet, drawing), sheetSvg(sheet)]),
  ];
}
