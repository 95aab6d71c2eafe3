import { spreadOf } from '../../checks/equal-length.js';
import type { Finding } from '../../checks/finding.js';
import { bendsOf, type RoutedTube } from '../../routing/routed.js';
import { leastGap } from '../summary/summary.js';
import type { BenchHeader, BenchTube } from './bench-data.js';
import { type RoutedParts, routedScene } from './scene.js';

/** What a page of the live bench shows of a header. */
export interface BenchHeaderSource extends RoutedParts {
  readonly findings: readonly Finding[];
  readonly passed: boolean;
}

/** A header for the page of the live bench. `base` is the SHA-256 of the plan's text. */
export function benchHeader(
  header: BenchHeaderSource,
  { base, kind, verdict }: Pick<BenchHeader, 'base' | 'kind' | 'verdict'>,
): BenchHeader {
  const { plan, primaries, secondaries, findings, passed } = header;
  const tube = (t: RoutedTube, cylinder: number | null): BenchTube => ({
    id: t.id,
    name: t.name,
    cylinder,
    collector: plan.collectors[t.collector]!.name,
    inlet: t.inlet,
    length: t.length,
    target: t.target,
    bends: bendsOf(t),
    gap: leastGap(header.gaps, t.id),
    byHand: t.givenByHand,
    points: t.polygon.points,
    clr: t.polygon.clr,
  });
  return {
    base,
    kind,
    name: plan.name,
    verdict,
    passed,
    spread: spreadOf(primaries.map((p) => p.length)),
    tolerance: plan.runners.tolerance,
    tubes: [...primaries.map((p) => tube(p, p.cylinder)), ...secondaries.map((s) => tube(s, null))],
    findings: findings.filter((f) => f.level !== 'ok'),
    scene: routedScene(header),
  };
}
