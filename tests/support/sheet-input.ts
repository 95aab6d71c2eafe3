import type { SheetInput } from '../../src/export/sheets/sheet-input.js';
import { inletTube } from '../../src/params/collector/inlet-tube.js';
import { collectorOf } from '../../src/parts/collector/collector.js';
import { collectorFiles } from '../../src/parts/printed-part.js';
import { cutsOf } from '../../src/parts/tube/tube-cuts.js';
import { type RoutedHeader, verdictOf } from '../../src/pipeline.js';

/** What the shop sheets tell of, from a routed header, without stock and patterns. */
export function sheetInputOf(header: RoutedHeader): SheetInput {
  const { plan, primaries, secondaries } = header;
  const names = collectorFiles(plan.collectors);
  return {
    ...header,
    collectors: plan.collectors.map((c, i) => collectorOf(c, inletTube(plan, c), plan.jig.bed, names[i]!)),
    cuts: [...primaries, ...secondaries].map((tube) => cutsOf(plan, tube)),
    bill: null,
    patterns: [],
    verdict: verdictOf(header),
  };
}
