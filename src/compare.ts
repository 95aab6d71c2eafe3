import type { BookPage } from './export/book/book-input.js';
import { comparisonText, type DrawnVariant } from './export/book/comparison.js';
import { type ComparedRow, comparedRows } from './export/book/comparison-rows.js';
import { routedScene } from './export/book/scene.js';
import { overviewSvg } from './export/svg/overview-svg.js';
import { inletTube } from './params/collector/inlet-tube.js';
import { collectorGeometry } from './parts/collector/merge-geometry.js';
import { stockBillOf } from './parts/stock/bill-of.js';
import { cutsOf } from './parts/tube/tube-cuts.js';
import { type RoutedHeader, verdictOf } from './pipeline.js';

/** A routed header to lay beside others. */
export interface Compared {
  /** Short, different from the others' names. */
  readonly label: string;
  /** The routed header. */
  readonly header: RoutedHeader;
  /** Its plan as it was written; null leaves the text out. */
  readonly source: BookPage['source'];
}

/** What comes of a comparison. */
export interface Comparison {
  /** The page, HTML. */
  readonly text: string;
  /** Of the headers, in their order. */
  readonly labels: readonly string[];
  /** What is compared, one row each. */
  readonly rows: readonly ComparedRow[];
}

/** Routed headers side by side. `script` is the browser's script of the book. The same headers give the same page. */
export async function compareHeaders(compared: readonly Compared[], script: string): Promise<Comparison> {
  const variants: DrawnVariant[] = [];
  for (const one of compared) variants.push(await variantOf(one));
  return {
    text: comparisonText(variants, script),
    labels: variants.map((v) => v.label),
    rows: comparedRows(variants),
  };
}

async function variantOf({ label, header, source }: Compared): Promise<DrawnVariant> {
  const { plan, primaries, secondaries } = header;
  const verdict = verdictOf(header);
  const cuts = [...primaries, ...secondaries].map((tube) => cutsOf(plan, tube));
  const bill = await stockBillOf(
    plan,
    cuts.flatMap((c) => c.pieces),
  );
  const collectors = plan.collectors.map((c) => collectorGeometry(c, inletTube(plan, c)));
  const overview = overviewSvg({ ...header, collectors, verdict });
  return { ...header, label, verdict, bill, overview, scene: routedScene(header), source };
}
