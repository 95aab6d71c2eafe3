import { outlineContains } from '../geometry/outline/contains.js';
import { outlineToOutline } from '../geometry/outline/distance.js';
import type { Outline } from '../geometry/outline/outline.js';
import { type LengthWords, lengthsIn } from '../params/faults/wording.js';
import type { Plan } from '../params/plan.js';
import type { FlangePart } from '../parts/flange/flange.js';
import { tubeSection } from '../parts/flange/tube-section.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** The fillet weld of every tube against the outer edge and the slots of its flange: it needs its leg of plate beside the tube. */
export function weldFitsEdge({ plan, flanges }: CheckContext): Finding[] {
  const words = lengthsIn(plan.units);
  return flanges.flatMap((f) =>
    tubesOn(plan, f).map(({ cylinder, skin }): Finding => {
      const edges = [f.region.outer, ...f.region.slots];
      const least = Math.min(...edges.map((e) => outlineToOutline(skin, e).distance));
      const over = !outlineContains(f.region.outer, [skin.vertices[0]!.x, skin.vertices[0]!.y]);
      const value = over ? -least : least;
      const limit = plan.flange.weldLeg;
      return {
        id: 'flange.weld-edge',
        level: value >= limit ? 'ok' : value > 0 ? 'warn' : 'fail',
        place: `${f.name}, cylinder ${cylinder}`,
        value,
        limit,
        unit: 'mm',
        message:
          value >= limit
            ? `${words(value, 2)} of plate beside the tube for a weld of ${words(limit, 2)}.`
            : value > 0
              ? `Only ${words(value, 2)} of plate beside the tube for a weld of ${words(limit, 2)}: widen flange.port_edge.`
              : 'The tube reaches over the edge of the flange: widen flange.port_edge.',
      };
    }),
  );
}

/** The gap between every two neighbouring tubes at the outer face: what a torch must reach into to weld all round. */
export function torchReaches({ plan, flanges }: CheckContext): Finding[] {
  const heads = [...new Set(flanges.map((f) => f.head))];
  const limit = plan.flange.torchGap;
  return heads.flatMap((head) => {
    const tubes = flanges.filter((f) => f.head === head).flatMap((f) => tubesOn(plan, f));
    const name = flanges.find((f) => f.head === head)!.headName;
    return tubes.flatMap((a, i) => {
      const others = tubes.filter((_, k) => k !== i);
      if (others.length === 0) return [];
      const gaps = others.map((b) => ({ to: b.cylinder, gap: outlineToOutline(a.skin, b.skin).distance }));
      const { to, gap } = gaps.reduce((x, y) => (y.gap < x.gap ? y : x));
      // the pair is told once, from the side of the lower cylinder, unless the other has a nearer neighbour
      if (to < a.cylinder && nearestOf(tubes, to) === a.cylinder) return [];
      return [torch(name, [a.cylinder, to], gap, limit, lengthsIn(plan.units))];
    });
  });
}

function nearestOf(tubes: readonly Tube[], cylinder: number): number {
  const own = tubes.find((t) => t.cylinder === cylinder)!;
  const others = tubes.filter((t) => t !== own);
  const gap = (t: Tube): number => outlineToOutline(own.skin, t.skin).distance;
  return others.reduce((x, y) => (gap(y) < gap(x) ? y : x)).cylinder;
}

const torch = (
  head: string,
  pair: readonly [number, number],
  value: number,
  limit: number,
  words: LengthWords,
): Finding => ({
  id: 'flange.torch-reach',
  level: value >= limit ? 'ok' : 'warn',
  place: `${head}, cylinders ${Math.min(...pair)} and ${Math.max(...pair)}`,
  value,
  limit,
  unit: 'mm',
  message:
    value >= limit
      ? `${words(value, 1)} between the tubes at the flange: a torch reaches all round.`
      : `Only ${words(value, 1)} between the tubes at the flange where a torch wants ${words(limit, 1)} (flange.torch_gap): weld the inner side first, tube by tube.`,
});

interface Tube {
  readonly cylinder: number;
  readonly skin: Outline;
}

/** The tubes of a flange where they leave its outer face. */
const tubesOn = (plan: Plan, flange: FlangePart): Tube[] =>
  plan.ports
    .filter((p) => flange.cylinders.includes(p.cylinder))
    .map((p) => ({ cylinder: p.cylinder, skin: tubeSection(plan, p, plan.tube.od / 2, plan.flange.thickness) }));
