import { flattenOutline } from '../../geometry/outline/flatten.js';
import { circleOutline } from '../../geometry/outline/make.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { difference, placed, type Solid } from '../../geometry/solid/solid.js';
import { bar, box, prism } from '../../geometry/solid/solid-shapes.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { inletTube } from '../../params/collector/inlet-tube.js';
import type { Head, Plan } from '../../params/plan.js';
import { collectorGeometry } from '../../parts/collector/merge-geometry.js';
import { collectorSolid } from '../../parts/collector/solid.js';
import type { FlangePart } from '../../parts/flange/flange.js';
import { holeOutline } from '../../parts/flange/region.js';
import { type PlatePart, platesOf } from '../../parts/plates/plate.js';
import type { SceneKind } from './scene-data.js';

/** A solid to be drawn, in the world, mm. */
export interface Drawn {
  readonly kind: SceneKind;
  readonly name: string;
  readonly title: string;
  readonly solid: Solid;
}

/** What is left of a head that has no end: so much round its ports and bolts, and so deep, mm. */
const HEAD = { margin: 20, depth: 25 } as const;

/** How far the head's metal stays behind its face, and a port's mark stands before it, mm: faces in one plane flicker. */
const APART = 0.05;
const MARK = { depth: 4, proud: 0.4 } as const;

/** Heads as slabs behind their faces, and a mark for every port. */
export function headSolids(plan: Plan): Drawn[] {
  const heads = plan.heads.map((head, i): Drawn => {
    const { from, to, depth } = head.body ?? { ...facePart(plan, head, i), depth: HEAD.depth };
    return {
      kind: 'head',
      name: `head-${i + 1}`,
      title: plan.heads.length > 1 ? `head ${head.name}` : 'head',
      solid: placed(box([from[0], from[1], -depth], [to[0], to[1], -APART]), head.frame),
    };
  });
  const ports = plan.ports.map((port): Drawn => {
    const { frame } = plan.heads[port.head]!;
    const outline = flattenOutline(port.outline).map(([x, y]): Vec2 => [x + port.at[0], y + port.at[1]]);
    return {
      kind: 'port',
      name: `port-${port.cylinder}`,
      title: `port of cylinder ${port.cylinder}, ${port.shape}`,
      solid: placed(prism(outline, -MARK.depth, MARK.proud), frame),
    };
  });
  return [...heads, ...ports];
}

function facePart(plan: Plan, head: Head, index: number): { from: Vec2; to: Vec2 } {
  const ports = plan.ports.filter((p) => p.head === index);
  const boxes = [
    ...ports.map((p) => {
      const { from, to } = outlineBounds(p.outline);
      return [p.at[0] + from[0], p.at[1] + from[1], p.at[0] + to[0], p.at[1] + to[1]] as const;
    }),
    ...head.bolts.map((b) => [b.at[0], b.at[1], b.at[0], b.at[1]] as const),
  ];
  const m = HEAD.margin;
  return {
    from: [Math.min(...boxes.map((b) => b[0])) - m, Math.min(...boxes.map((b) => b[1])) - m],
    to: [Math.max(...boxes.map((b) => b[2])) + m, Math.max(...boxes.map((b) => b[3])) + m],
  };
}

/** The flanges in steel. */
export const flangeSolids = (plan: Plan, flanges: readonly FlangePart[]): Drawn[] =>
  flanges.map((f) => {
    const { region, thickness } = f;
    const open = [
      ...region.openings.map((o) => o.outline),
      ...region.bolts.map(holeOutline),
      ...region.slots,
      ...region.dowels.map((d) => circleOutline(d.at, d.diameter)),
    ];
    return {
      kind: 'flange',
      name: f.name,
      title: f.title,
      solid: placed(plateSolid(region.outer, open, thickness), plan.heads[f.head]!.frame),
    };
  });

/** Plates that stand at the end of an outlet, and sleeves over the last of it; a plate for two outlets has no place of its own yet. */
export const plateSolids = (plan: Plan): Drawn[] =>
  platesOf(plan).flatMap((plate): Drawn[] => {
    const { frame, flat } = plate;
    if (frame === null) return [];
    return [
      { kind: 'plate', name: flat.path.replace('/', '-'), title: flat.name, solid: placed(plateInFrame(plate), frame) },
    ];
  });

function plateInFrame({ plan: { pattern }, flat: { region, thickness } }: PlatePart): Solid {
  if (pattern.kind === 'slip_joint') {
    const bore = pattern.tubeOd / 2 + pattern.fit;
    const { overlap, wall } = pattern;
    return difference(bar(bore + wall, -overlap, 0), bar(bore, -overlap - 1, 1));
  }
  const open = [...[...region.openings, ...region.holes].map((o) => o.outline), ...region.slots];
  return plateSolid(region.outer, open, thickness);
}

const plateSolid = (outer: Outline, open: readonly Outline[], thickness: number): Solid =>
  difference(
    prism(flattenOutline(outer), 0, thickness),
    ...open.map((o) => prism(flattenOutline(o), -1, thickness + 1)),
  );

/** The collectors in steel. */
export const collectorSolids = (plan: Plan): Drawn[] =>
  plan.collectors.map((c, i) => ({
    kind: 'collector',
    name: `collector-${i + 1}`,
    title: plan.collectors.length > 1 ? `collector ${c.name}` : 'collector',
    solid: placed(collectorSolid(collectorGeometry(c, inletTube(plan, c))), c.frame),
  }));
