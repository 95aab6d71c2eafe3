import type { Plan } from '../../params/plan.js';
import type { CollectorGeometry } from '../collector/merge-geometry.js';
import { collectorFiles } from '../printed-part.js';
import {
  branchPatterns,
  type CollectorKind,
  conePattern,
  diffuserPattern,
  inletPattern,
} from './collector-patterns.js';
import { fabricatedPatterns } from './fabricated.js';
import type { Pattern } from './pattern.js';
import { portMitres } from './port-mitres.js';

/**
 * Every flat development of a header: tilted ends at the head, inlets and cones of the collectors, and the pieces the plan adds.
 * `collectors` are the geometries of `plan.collectors` in order. Each name is its own.
 */
export function patternsOf(plan: Plan, collectors: readonly CollectorGeometry[]): readonly Pattern[] {
  const layout = plan.patterns;
  const kinds = kindsOf(plan, collectors);
  return namedApart([
    ...portMitres(plan, layout),
    ...kinds
      .flatMap((kind) => [
        inletPattern(kind, layout),
        conePattern(kind, plan.tube.material, plan.units),
        diffuserPattern(kind, plan.tube.material, plan.units),
        ...branchPatterns(kind, layout),
      ])
      .filter((p) => p !== null),
    ...layout.extra.flatMap((piece) => fabricatedPatterns(piece, layout)),
  ]);
}

/** Collectors that are cut alike are one kind. */
function kindsOf({ collectors }: Plan, geometries: readonly CollectorGeometry[]): CollectorKind[] {
  const files = collectorFiles(collectors);
  const kinds = new Map<string, { geometry: CollectorGeometry; file: string; names: string[] }>();
  geometries.forEach((geometry, i) => {
    const key = JSON.stringify(geometry, (_, v) => (typeof v === 'number' ? v.toFixed(6) : v));
    const kind = kinds.get(key) ?? { geometry, file: files[i]!, names: [] };
    kind.names.push(collectors[i]!.name);
    kinds.set(key, kind);
  });
  return [...kinds.values()];
}

/** Patterns with the names of later ones numbered where an earlier one has the same. */
function namedApart(patterns: readonly Pattern[]): readonly Pattern[] {
  const taken = new Set<string>();
  return patterns.map((p) => {
    let name = p.name;
    for (let n = 2; taken.has(name); n++) name = `${p.name}-${n}`;
    taken.add(name);
    return name === p.name ? p : { ...p, name };
  });
}
