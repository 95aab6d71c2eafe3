import { outlineContains } from '../../geometry/outline/contains.js';
import { outlineBounds, signedArea } from '../../geometry/outline/measure.js';
import { offsetOutlines } from '../../geometry/outline/offset.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { lengthWords } from '../../params/faults/wording.js';
import type { GasketsPlan, Plan } from '../../params/plan.js';
import type { FlatOpening, FlatPart } from './flat-part.js';
import type { PlatePart } from './plate.js';

/** Gaskets of flanges and plates as the plan wants them. */
export function gasketsOf(plan: Plan, flanges: readonly FlatPart[], plates: readonly PlatePart[]): readonly FlatPart[] {
  const { gaskets } = plan;
  if (gaskets === null) return [];
  return [
    ...(gaskets.flanges ? flanges : []),
    ...(gaskets.plates ? plates.filter((p) => p.plan.gasket).map((p) => p.flat) : []),
  ].map((part) => gasketOf(part, gaskets));
}

/** The gasket of a part: its outline and holes, the openings grown. Openings that grow together become one. */
export function gasketOf(part: FlatPart, { grow, thickness, material }: GasketsPlan): FlatPart {
  const region = { ...part.region, openings: grown(part.region.openings, grow), slots: [] };
  const holes = region.holes.map((h) => ({ ...h, drill: false }));
  const finished = { ...region, holes };
  const { from, to } = outlineBounds(region.outer);
  const joined = part.region.openings.length - region.openings.length;
  return {
    ...part,
    path: part.path.replace(/[^/]*$/, (name) => `gasket-${name}`),
    kind: 'gasket',
    name: `gasket of ${part.name}`,
    title: `${part.title}, gasket`,
    thickness,
    material,
    region: finished,
    cut: finished,
    kerf: { width: 0, compensated: false },
    size: [to[0] - from[0], to[1] - from[1]],
    mass: null,
    engraving: [],
    blends: [],
    notes: [
      `openings are ${lengthWords(grow, part.units, 2)} larger all round than those of ${part.name}`,
      ...(joined > 0 ? ['openings grew together: the web between them is too thin for a gasket'] : []),
    ],
  };
}

function grown(openings: readonly FlatOpening[], by: number): FlatOpening[] {
  if (by === 0 || openings.length === 0) return [...openings];
  const outlines = offsetOutlines(
    openings.map((o) => o.outline),
    by,
  ).filter((o) => signedArea(o) > 0);
  return outlines
    .map((outline) => {
      const inside = openings.filter((o) => outlineContains(outline, cornerOf(o)));
      const place = inside.map((o) => o.place).join(' and ');
      return { place, label: inside.map((o) => o.label).join(' '), outline, first: openings.indexOf(inside[0]!) };
    })
    .sort((a, b) => a.first - b.first)
    .map(({ place, label, outline }) => ({ place, label, outline }));
}

const cornerOf = ({ outline }: FlatOpening): Vec2 => [outline.vertices[0]!.x, outline.vertices[0]!.y];
