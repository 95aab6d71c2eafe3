import { outlineArea, outlineBounds, perimeter } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { boltGroups } from '../../params/bolt-groups.js';
import type { FlangeStyle } from '../../params/plan/flange.js';
import type { Head, Plan, Port } from '../../params/plan.js';
import { plateDensity } from '../plate-density.js';
import { bridged } from './bridges.js';
import type { FlangeCore, PlateShape } from './core.js';
import { type FlangeEdge, flangeEdge, LEAST_SIDE } from './edge.js';
import { grownHoles, growthOf } from './growth.js';
import { cutPath } from './kerf.js';
import { flangeNames } from './names.js';
import { necked, necksOf } from './necks.js';
import { withNotches } from './notch.js';
import { flangeNotes } from './notes.js';
import { type OpeningFlow, openingFlow } from './opening.js';
import type { FlangeContour, FlangePart } from './part.js';
import { onePiece } from './plate.js';
import { type FlangeDowel, type FlangeHole, type FlangeRegion, holeOutline } from './region.js';
import type { Relief } from './relief.js';
import { reliefSlots } from './slots.js';

export type { FlangeContour, FlangePart } from './part.js';

/** The ports of one flange and the bolts that hold it. */
interface Share {
  readonly head: Head;
  readonly index: number;
  readonly ports: readonly Port[];
  /** Places in the head's list. */
  readonly bolts: readonly number[];
  /** True when the head has other flanges too. */
  readonly part: boolean;
}

/** The flanges of every head that has ports, in the order of the heads: one each, or one for each separate group. */
export function flangesOf(plan: Plan): readonly FlangePart[] {
  const shares = plan.heads.flatMap((head, index) => sharesOf(plan, head, index));
  const heads = [...new Set(shares.map((s) => s.index))];
  const names = flangeNames(heads.map((i) => plan.heads[i]!.name));
  return shares.map((s) => flangeOf(plan, s, names[heads.indexOf(s.index)]!));
}

function sharesOf(plan: Plan, head: Head, index: number): Share[] {
  const { style } = plan.flange;
  const ports = plan.ports.filter((p) => p.head === index);
  if (ports.length === 0) return [];
  if (style.kind !== 'separate') return [{ head, index, ports, bolts: [...head.bolts.keys()], part: false }];
  const own = ports.map((p) => p.cylinder);
  const groups = style.groups?.filter((g) => own.includes(g[0]!)) ?? own.map((c) => [c]);
  return boltGroups(groups, ports, head.bolts).map(({ cylinders, bolts }) => ({
    head,
    index,
    ports: ports.filter((p) => cylinders.includes(p.cylinder)),
    bolts,
    part: true,
  }));
}

function flangeOf(plan: Plan, { head, index, ports, bolts, part }: Share, headFile: string): FlangePart {
  const { thickness, material, kerf, growth, style } = plan.flange;
  const flows = ports.map((p) => openingFlow(plan, p));
  const round = bolts.map((bolt): FlangeHole => {
    const { at, holeDiameter, thread } = head.bolts[bolt]!;
    return { bolt, at, diameter: holeDiameter, slot: null, thread, drill: false };
  });
  const holes = (growth === null ? round : grownHoles(growth, round)).map((h) => ({
    ...h,
    drill: h.diameter < plan.flange.leastCutHole * thickness,
  }));
  const here = <T extends { readonly head: string | null }>(list: readonly T[]): T[] =>
    list.filter((x) => x.head === null || x.head === head.name);
  const dowels = here(plan.flange.dowels)
    .filter(
      (d) =>
        !part ||
        isNearestTo(
          d.at,
          ports,
          plan.ports.filter((p) => p.head === index),
        ),
    )
    .map(({ at, diameter }): FlangeDowel => ({ at, diameter }));
  const core = coreOf(plan, ports, flows, holes, dowels);
  const compensation = kerf.compensate ? kerf.width / 2 : 0;
  const bare = (outer: Outline, slots: readonly Outline[]): FlangeRegion => ({
    outer,
    openings: flows.map((f) => ({ cylinder: f.cylinder, outline: f.cut })),
    bolts: holes,
    slots,
    dowels,
  });
  const edge = flangeEdge(core, (e) => cutPath(bare(e.outline, e.windows), compensation), shapeOf(style));
  const { outline, done } = withNotches(edge.outline, here(plan.flange.notches), LEAST_SIDE);
  const { relief, slots } = reliefOf(plan, core, edge, outline);
  const region = bare(outline, [...edge.windows, ...slots]);
  const cut = cutPath(region, compensation);
  const inner = [...flows.map((f) => f.cut), ...region.slots, ...holes.map(holeOutline)];
  const area =
    outlineArea(outline) - sum(inner.map(outlineArea)) - sum(dowels.map((d) => (Math.PI * d.diameter ** 2) / 4));
  const { from, to } = outlineBounds(outline);
  const name = part ? `${headFile}-${ports.map((p) => p.cylinder).join('-')}` : headFile;
  const made = {
    name,
    units: plan.units,
    title: `${plan.name}: ${heading(headFile, head, part ? ports : [])}`,
    headName: head.name,
    head: index,
    cylinders: ports.map((p) => p.cylinder),
    style: style.kind,
    thickness,
    material,
    region,
    cut,
    kerf: { width: kerf.width, compensated: kerf.compensate },
    flows,
    contours: flows.flatMap(contoursOf),
    growth: growth === null ? [] : growthOf(growth, holes),
    relief,
    notches: done,
    size: [to[0] - from[0], to[1] - from[1]] as const,
    area,
    perimeter: perimeter(outline),
    cutLength: cutLength(cut),
    mass: area * thickness * plateDensity(material) * 1e-9,
  };
  return { ...made, notes: flangeNotes(plan, made, edge.extra) };
}

function coreOf(
  plan: Plan,
  ports: readonly Port[],
  flows: readonly OpeningFlow[],
  holes: readonly FlangeHole[],
  dowels: readonly FlangeDowel[],
): FlangeCore {
  const { portEdge, boltEdge, fillet } = plan.flange;
  return {
    openings: flows.map((f, i) => ({ at: ports[i]!.at, outline: f.cut })),
    holes: [
      ...holes.map((h) => ({
        at: h.at,
        width: h.diameter,
        length: h.slot?.length ?? h.diameter,
        angle: h.slot?.angle ?? 0,
      })),
      ...dowels.map((d) => ({ at: d.at, width: d.diameter, length: d.diameter, angle: 0 })),
    ],
    portEdge,
    holeEdge: boltEdge,
    fillet,
  };
}

function shapeOf(style: FlangeStyle): PlateShape {
  if (style.kind === 'necked') return necked(style.width, style.length);
  return style.kind === 'bridged' ? bridged(style.width) : onePiece;
}

function reliefOf(
  plan: Plan,
  core: FlangeCore,
  edge: FlangeEdge,
  outline: Outline,
): { readonly relief: readonly Relief[]; readonly slots: readonly Outline[] } {
  const { style, web } = plan.flange;
  if (style.kind === 'necked') return { relief: necksOf(core, style.length, edge.extra), slots: [] };
  if (style.kind !== 'slotted') return { relief: [], slots: [] };
  const made = reliefSlots(core, outline, { width: style.width, tie: style.tie, web });
  return { relief: made, slots: made.flatMap((m) => (m.outline === null ? [] : [m.outline])) };
}

/** True when no port of the head is nearer to a place than those of one flange. */
function isNearestTo(at: Vec2, own: readonly Port[], all: readonly Port[]): boolean {
  const least = (ports: readonly Port[]): number =>
    Math.min(...ports.map((p) => Math.hypot(p.at[0] - at[0], p.at[1] - at[1])));
  return own.includes(all.find((p) => least([p]) <= least(all) + 1e-9)!);
}

function heading(file: string, head: Head, ports: readonly Port[]): string {
  const whose = file === 'flange' ? 'flange' : `flange ${head.name}`;
  if (ports.length === 0) return whose;
  return `${whose}, cylinder${ports.length > 1 ? 's' : ''} ${ports.map((p) => p.cylinder).join(' and ')}`;
}

const contoursOf = ({ cylinder, blend }: OpeningFlow): FlangeContour[] =>
  blend === null
    ? []
    : [
        { cylinder, face: 'head', outline: blend.headContour },
        { cylinder, face: 'outer', outline: blend.outerContour },
      ];

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

const cutLength = (cut: FlangeRegion): number =>
  perimeter(cut.outer) +
  sum([...cut.openings.map((o) => o.outline), ...cut.slots].map(perimeter)) +
  sum(cut.bolts.filter((b) => !b.drill).map((b) => perimeter(holeOutline(b))));
