import type { FlangeStyle, GrowthPlan, NotchPlan, OpeningPlan } from '../plan/flange.js';
import type { FlangePlan } from '../plan.js';
import type { PlanFile } from '../schema/plan-file.js';
import { flangeMetalOf } from '../tables/expansion.js';

type File = PlanFile['flange'];

/** The flange as later stages see it. `wall` is that of the tube welded to it, mm. */
export function flangeOf(f: File, wall: number): FlangePlan {
  return {
    thickness: f.thickness,
    material: f.material,
    portEdge: f.port_edge ?? f.edge_width,
    boltEdge: f.bolt_edge ?? f.edge_width,
    web: f.web,
    fillet: f.fillet,
    opening: openingOf(f),
    style: styleOf(f.style),
    dowels: f.dowels.map((d) => ({ ...d, head: d.head ?? null })),
    notches: f.notches.map((n): NotchPlan => ({ ...n, head: n.head ?? null })),
    growth: f.growth === undefined ? null : growthOf(f.growth, f.material),
    weldLeg: f.weld_leg ?? wall,
    torchGap: f.torch_gap,
    leastCutHole: f.least_cut_hole,
    cutClass: f.cut_class,
    kerf: f.kerf,
  };
}

function openingOf({ opening, enlarge }: File): OpeningPlan {
  if (opening.match === 'tube_bore' || opening.match === 'tube_od') return opening;
  return { ...opening, enlarge: opening.enlarge ?? enlarge };
}

const styleOf = (style: File['style']): FlangeStyle =>
  style.kind === 'separate' ? { ...style, groups: style.groups ?? null } : style;

function growthOf(g: NonNullable<File['growth']>, material: string): GrowthPlan {
  return {
    headMetal: g.head_material,
    flangeMetal: g.flange_material ?? flangeMetalOf(material),
    cold: g.cold,
    headHot: g.head_hot,
    flangeHot: g.flange_hot,
    fixed: g.fixed,
    holes: g.holes,
  };
}
