import type { Outline } from '../geometry/outline.js';
import { outlineArea, outlineBounds, perimeter, signedArea } from '../geometry/outline-measure.js';
import { offsetOutline } from '../geometry/outline-offset.js';
import { reverseOutline, translateOutline } from '../geometry/outline-transform.js';
import type { Vec2 } from '../geometry/vec2.js';
import type { Head, Plan } from '../params/plan.js';
import { flangeEdge } from './flange-edge.js';
import type { FlangeHole, FlangeRegion } from './flange-region.js';
import { cutPath } from './kerf.js';
import { plateDensity } from './plate-density.js';

/** One flange: the plate bolted to one head. */
export interface FlangePart {
  /** 'flange' for one head, else 'flange-' and the head's name; safe as a file name. */
  readonly name: string;
  /** Plan and head in the plan's words. */
  readonly title: string;
  readonly headName: string;
  /** Index into `Plan.heads`. */
  readonly head: number;
  /** mm. */
  readonly thickness: number;
  readonly material: string;
  /** The finished flange. */
  readonly region: FlangeRegion;
  /** What the cutter is to follow: the finished outlines, or those moved by half the kerf. */
  readonly cut: FlangeRegion;
  readonly kerf: { readonly width: number; readonly compensated: boolean };
  /** Extent of the finished flange, mm. */
  readonly size: Vec2;
  /** Face area of the finished flange without its openings and holes, mm2. */
  readonly area: number;
  /** Outer edge of the finished flange, mm. */
  readonly perimeter: number;
  /** All that is cut, mm: outer edge, openings and holes that are not drilled. */
  readonly cutLength: number;
  /** kg, from the density of the material's kind. */
  readonly mass: number;
  /** Remarks for the fabricator. */
  readonly notes: readonly string[];
}

/**
 * Holes below this many plate thicknesses do not come out clean or round from a plasma cutter and are drilled.
 * Common practice; a vendor's figure of 1.5 is quoted in several design guides for plasma cutting.
 */
export const LEAST_CUT_HOLE = 1.5;

/** The flange of every head that has ports, in the order of the heads. */
export function flangesOf(plan: Plan): readonly FlangePart[] {
  const heads = plan.heads
    .map((head, index) => ({ head, index }))
    .filter((h) => plan.ports.some((p) => p.head === h.index));
  const names = heads.length === 1 ? ['flange'] : fileNames(heads.map((h) => h.head.name));
  return heads.map((h, i) => flangeOf(plan, h.head, h.index, names[i]!));
}

function flangeOf(plan: Plan, head: Head, index: number, name: string): FlangePart {
  const { thickness, material, kerf, portEdge, boltEdge, fillet } = plan.flange;
  const ports = plan.ports.filter((p) => p.head === index);
  const openings = ports.map((p) => ({
    cylinder: p.cylinder,
    at: p.at,
    outline: translateOutline(grown(counterClockwise(p.outline), plan.flange.enlarge), p.at),
  }));
  const bolts = head.bolts.map(
    (b): FlangeHole => ({
      at: b.at,
      diameter: b.holeDiameter,
      thread: b.thread,
      drill: b.holeDiameter < LEAST_CUT_HOLE * thickness,
    }),
  );
  const compensation = kerf.compensate ? kerf.width / 2 : 0;
  const region = (outer: Outline): FlangeRegion => ({
    outer,
    openings: openings.map(({ cylinder, outline }) => ({ cylinder, outline })),
    bolts,
  });
  const edge = flangeEdge({ openings, bolts, portEdge, boltEdge, fillet }, (outer) =>
    cutPath(region(outer), compensation),
  );
  const finished = region(edge.outline);
  const cut = cutPath(finished, compensation);
  const holes = bolts.map((b) => (Math.PI * b.diameter ** 2) / 4);
  const area = outlineArea(edge.outline) - sum(openings.map((o) => outlineArea(o.outline))) - sum(holes);
  const { from, to } = outlineBounds(edge.outline);
  return {
    name,
    title: `${plan.name}: ${heading(name, head)}`,
    headName: head.name,
    head: index,
    thickness,
    material,
    region: finished,
    cut,
    kerf: { width: kerf.width, compensated: kerf.compensate },
    size: [to[0] - from[0], to[1] - from[1]],
    area,
    perimeter: perimeter(edge.outline),
    cutLength: cutLength(cut),
    mass: area * thickness * plateDensity(material) * 1e-9,
    notes: notesOf(finished, edge.extra, thickness),
  };
}

const heading = (name: string, head: Head): string => (name === 'flange' ? 'flange' : `flange ${head.name}`);

function notesOf(region: FlangeRegion, extra: number, thickness: number): string[] {
  const drilled = region.bolts.filter((b) => b.drill).length;
  const least = (LEAST_CUT_HOLE * thickness).toFixed(1);
  return [
    ...(drilled > 0
      ? [
          `${drilled} of ${region.bolts.length} bolt holes are below ${least} mm (${LEAST_CUT_HOLE} x thickness): centre-mark and drill`,
        ]
      : []),
    ...(extra > 0.02
      ? [`edge and fillets are ${extra.toFixed(2)} mm wider than asked, so that no side is too short to cut`]
      : []),
  ];
}

const grown = (outline: Outline, by: number): Outline => (by === 0 ? outline : offsetOutline(outline, by));

const counterClockwise = (outline: Outline): Outline => (signedArea(outline) < 0 ? reverseOutline(outline) : outline);

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

const cutLength = (cut: FlangeRegion): number =>
  perimeter(cut.outer) +
  sum(cut.openings.map((o) => perimeter(o.outline))) +
  sum(cut.bolts.filter((b) => !b.drill).map((b) => Math.PI * b.diameter));

/** 'flange-' and each head's name in lower-case letters, digits and hyphens; a name met before gets a number. */
function fileNames(heads: readonly string[]): string[] {
  const plain = heads.map((h, i) => {
    const words = h
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[\u0300-\u036f]/g, '')
      .replace(/[^a-z0-9]+/g, '-');
    return `flange-${words.replace(/^-+|-+$/g, '') || i + 1}`;
  });
  return plain.map((name, i) => {
    const before = plain.slice(0, i).filter((n) => n === name).length;
    return before === 0 ? name : `${name}-${before + 1}`;
  });
}
