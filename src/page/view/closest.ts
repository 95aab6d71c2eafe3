import type { SceneData, SceneGap, SceneTube } from '../../export/book/scene-data.js';
import { headingAt } from '../../geometry/path/path.js';
import { skinGap, type TubeRun } from '../../geometry/space/skin-gap.js';
import { along, distance, sub, unit } from '../../geometry/vec3.js';
import { pathOf } from './tube-path.js';
import { sectionAt } from './tube-place.js';

/** A closest place of two tubes; without a limit where the scene holds none for them and it was measured in the page. */
export type ClosestPlace = Pick<SceneGap, 'place' | 'value' | 'from' | 'to'> & { readonly limit: number | null };

/** The closest places of two tubes: those the scene tells, in the open first, else the one measured here on their whole lengths. */
export function closestPlaces(scene: SceneData, a: string, b: string): readonly ClosestPlace[] {
  const told = scene.gaps.filter((g) => g.tubes.length === 2 && g.tubes.includes(a) && g.tubes.includes(b));
  if (told.length > 0) return told;
  const [first, second] = [a, b].map((id) => scene.tubes.find((t) => t.id === id));
  return first && second && first !== second ? [measured(first, second)] : [];
}

function measured(a: SceneTube, b: SceneTube): ClosestPlace {
  const [first, second] = [runOf(a), runOf(b)];
  const { gap, run, otherRun } = skinGap(first, second);
  const p = headingAt(first.path, run).point;
  const q = headingAt(second.path, otherRun).point;
  const way = distance(p, q) > 0 ? unit(sub(q, p)) : headingAt(first.path, run).direction;
  return {
    place: `${a.name} and ${b.name}`,
    value: gap,
    limit: null,
    from: along(p, way, sectionAt(a, run).od / 2),
    to: along(q, way, -sectionAt(b, otherRun).od / 2),
  };
}

const runOf = (tube: SceneTube): TubeRun => ({
  path: pathOf(tube),
  steps: tube.sections.map((s) => ({ from: s.from, radius: s.od / 2 })),
});
