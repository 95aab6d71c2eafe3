import { degrees } from '../../geometry/angle.js';
import type { Frame } from '../../geometry/frame.js';
import { outlineArea, outlineBounds } from '../../geometry/outline/measure.js';
import { along } from '../../geometry/vec3.js';
import { inletTube } from '../../params/collector/inlet-tube.js';
import { type LengthWords, lengthsIn } from '../../params/faults/wording.js';
import type { CollectorPlan, Plan, PlatePlan } from '../../params/plan.js';
import { collectorGeometry } from '../collector/merge-geometry.js';
import { plateDensity } from '../plate-density.js';
import { fileName } from '../printed-part.js';
import { engravingOf, middleOf } from './engraving.js';
import { type FlatPart, type FlatRegion, flatArea, flatCut } from './flat-part.js';
import { plateRegion } from './plate-region.js';

/** A plate of the plan as it is made. */
export interface PlatePart {
  readonly plan: PlatePlan;
  readonly flat: FlatPart;
  /** All openings together, mm2; of a slip joint the bore of its sleeve. */
  readonly openArea: number;
  /** Bores of the outlets that end in it, together, mm2; null when it is for none. */
  readonly outletArea: number | null;
  /** World frame of its middle, z with the gas, at the end of the outlet it is for; null when it is for none or for two. */
  readonly frame: Frame | null;
}

/** Every plate of a plan, in its order. */
export function platesOf(plan: Plan): readonly PlatePart[] {
  const names = fileNames(plan.plates);
  return plan.plates.map((plate, i) => plateOf(plan, plate, names[i]!));
}

function plateOf(plan: Plan, plate: PlatePlan, file: string): PlatePart {
  const { thickness, material, pattern } = plate;
  const region = plateRegion(plate, plan.flange.leastCutHole, plan.units);
  const { width, compensate } = plan.flange.kerf;
  const marks =
    pattern.kind === 'slip_joint' || !plan.drawing.engrave ? [] : [{ words: plate.name, near: middleOf(region.outer) }];
  const engraving = engravingOf(region, marks);
  const feeds = plate.feeds.map((name) => plan.collectors.find((c) => c.name === name)!);
  const { from, to } = outlineBounds(region.outer);
  const flat: FlatPart = {
    path: `plates/${file}`,
    kind: 'plate',
    name: plate.name,
    title: `${plan.name}: ${plate.name}`,
    belongs: [PATTERN[pattern.kind], ...(plate.feeds.length > 0 ? [`for ${plate.feeds.join(' and ')}`] : [])].join(
      ', ',
    ),
    thickness: pattern.kind === 'slip_joint' ? pattern.wall : thickness,
    material,
    region,
    cut: flatCut(region, compensate ? width / 2 : 0),
    kerf: { width, compensated: compensate },
    size: [to[0] - from[0], to[1] - from[1]],
    mass: flatArea(region) * (pattern.kind === 'slip_joint' ? pattern.wall : thickness) * plateDensity(material) * 1e-9,
    count: plate.count,
    engraving: engraving.strokes,
    blends: [],
    units: plan.units,
    seen: pattern.kind === 'slip_joint' ? 'flat, before it is rolled' : 'seen against the gas',
    notes: [
      ...notesOf(plate, region, plan.flange.leastCutHole, lengthsIn(plan.units)),
      ...engraving.homeless.map((w) => `no room to mark '${w}'`),
    ],
  };
  const openArea =
    pattern.kind === 'slip_joint'
      ? (Math.PI * (pattern.tubeOd + 2 * pattern.fit) ** 2) / 4
      : region.openings.reduce((sum, o) => sum + outlineArea(o.outline), 0);
  return {
    plan: plate,
    flat,
    openArea,
    outletArea: feeds.length === 0 ? null : feeds.reduce((sum, c) => sum + outletArea(c), 0),
    frame: feeds.length === 1 ? outletFrame(plan, feeds[0]!) : null,
  };
}

/** Bore of a collector's outlet, mm2. */
const outletArea = ({ outlet }: CollectorPlan): number => (Math.PI * (outlet.od - 2 * outlet.wall) ** 2) / 4;

function outletFrame(plan: Plan, c: CollectorPlan): Frame {
  const { totalLength } = collectorGeometry(c, inletTube(plan, c));
  return { ...c.frame, origin: along(c.frame.origin, c.frame.z, totalLength) };
}

/** What a pattern is called in lists. */
const PATTERN: Readonly<Record<PlatePlan['pattern']['kind'], string>> = {
  rectangle_four_bolt: 'rectangle with four bolts',
  triangle_three_bolt: 'triangle with three bolts',
  oval_two_bolt: 'oval with two bolts',
  round: 'round',
  vband_bore: 'V-band ring',
  slip_joint: 'slip joint sleeve',
};

function notesOf({ pattern }: PlatePlan, { holes }: FlatRegion, leastCutHole: number, words: LengthWords): string[] {
  if (pattern.kind === 'slip_joint') {
    const bore = pattern.tubeOd + 2 * pattern.fit;
    return [
      `roll to a sleeve ${words(bore, 2)} inside, ${words(bore + 2 * pattern.wall, 2)} outside; weld the seam`,
      `tube of ${words(pattern.tubeOd, 2)} slips in ${words(pattern.overlap, 2)}, gap ${words(pattern.fit, 2)} per side`,
    ];
  }
  const measure = 'measure the part it meets before cutting';
  if (pattern.kind === 'vband_bore') {
    return [`bore ${words(pattern.bore, 2)}; turn the outside to the groove of the clamp`, measure];
  }
  const drilled = holes.filter((h) => h.drill).length;
  return [
    measure,
    ...circleNotes(pattern, words),
    ...(drilled > 0
      ? [`${drilled} of ${holes.length} holes are below ${leastCutHole} x thickness: centre-mark and drill`]
      : []),
  ];
}

function circleNotes(pattern: PlatePlan['pattern'], words: LengthWords): string[] {
  if (!('boltCircle' in pattern)) return [];
  const turned =
    pattern.clocking === 0 ? '' : `, turned ${Number(degrees(pattern.clocking).toFixed(2))} deg counter-clockwise`;
  return [`${pattern.count} bolts on a circle of ${words(pattern.boltCircle, 2)}, the first straight up${turned}`];
}

/** Names safe for files, each its own: those that are empty or taken once made safe get their number. */
function fileNames(plates: readonly PlatePlan[]): string[] {
  const plain = plates.map((p) => fileName(p.name.normalize('NFKD').replace(/\p{M}/gu, '')));
  return plain.map((name, i) => (name === '' || plain.indexOf(name) !== i ? `${name || 'plate'}-${i + 1}` : name));
}
