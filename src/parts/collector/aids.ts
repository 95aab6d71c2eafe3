import type { JigPlan } from '../../params/plan.js';
import type { SolidPart } from '../part.js';
import type { Collector } from './collector.js';
import { mergeGauge } from './merge-gauge.js';
import { collectorPieces } from './pieces.js';
import { sawBlocks } from './saw-block.js';

/** What is printed beside a collector: its pieces where it is too large for the bed, the gauge of its merge, the saw block of its tubes. */
export const collectorAids = (collector: Collector, jig: JigPlan): readonly SolidPart[] => [
  ...collectorPieces(collector, jig),
  ...mergeGauge(collector, jig),
  ...sawBlocks(collector, jig),
];

/** Said wherever a gauge or a saw block is handed out. */
export const AIDS_CAUTION =
  'A printed gauge or saw block is a marking and holding aid: mark or scribe along it, clamp tube and block in a vice, keep guards on the saw and hands off the line of the cut. Never guide a grinding disc with it, and keep it from heat (common practice, no source).';

/** Collectors too large for the bed that could not be cut into pieces either. */
export const unprintable = (collectors: readonly Collector[], aids: readonly SolidPart[]): SolidPart[] =>
  collectors
    .map((c) => c.part)
    .filter(
      (p) =>
        p.tooBig !== null && !aids.some((a) => a.kind === 'collector-piece' && a.name.startsWith(`${p.name}-piece-`)),
    );
