import { headingAt } from '../../geometry/path/path.js';
import { spanAtRun } from '../../geometry/path/span-at-run.js';
import { nearestOnObstacle } from '../../geometry/space/obstacle-nearest.js';
import { along, distance, perpendicularTo, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { Gap } from '../../routing/clearance.js';
import type { KeptOut } from '../../routing/problem.js';
import type { RoutedTube } from '../../routing/routed.js';
import type { SceneGap } from './scene-data.js';

/** Gaps with both ends on the skins they lie between. */
export function sceneGaps(
  gaps: readonly Gap[],
  tubes: readonly RoutedTube[],
  keptOut: readonly KeptOut[],
): readonly SceneGap[] {
  return gaps.map((gap) => {
    const first = tubes.find((t) => t.id === gap.tubes[0])!;
    const { kind, place, value, limit } = gap;
    const ends = gap.otherRun === null ? endsToSpace(gap, first, keptOut) : endsToTube(gap, gap.otherRun, first, tubes);
    return { kind, tubes: gap.tubes, place, value, limit, ...ends };
  });
}

type Ends = Pick<SceneGap, 'from' | 'to'>;

/** The second tube; the tube itself where it passes its own. */
function endsToTube(gap: Gap, otherRun: number, first: RoutedTube, tubes: readonly RoutedTube[]): Ends {
  const other = tubes.find((t) => t.id === gap.tubes[1]) ?? first;
  const far = headingAt(other.path, otherRun).point;
  const way = wayBetween(gap.at, far);
  return {
    from: along(gap.at, way, radiusAt(first, gap.run)),
    to: along(far, way, -radiusAt(other, otherRun)),
  };
}

function endsToSpace(gap: Gap, tube: RoutedTube, keptOut: readonly KeptOut[]): Ends {
  const { obstacle } = keptOut.find((k) => gap.place === `${tube.name} and ${k.name}`)!;
  const to = nearestOnObstacle(obstacle, gap.at);
  const radius = radiusAt(tube, gap.run);
  // a centreline inside of what is kept out has its skin on the far side from the nearest face
  const inside = gap.value < -radius;
  return { from: along(gap.at, wayBetween(gap.at, to), inside ? -radius : radius), to };
}

/** Unit direction from one point to another; any where they fall together. */
const wayBetween = (a: Vec3, b: Vec3): Vec3 => (distance(a, b) > 1e-9 ? unit(sub(b, a)) : perpendicularTo([0, 0, 1]));

function radiusAt({ sections }: RoutedTube, run: number): number {
  const section = spanAtRun(sections, run);
  return section.od / 2;
}
