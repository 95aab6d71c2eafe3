import { circleOutline } from '../../geometry/outline/make.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import { lengthWords, sizeWords } from '../../params/faults/wording.js';
import type { LengthUnit } from '../../params/units.js';
import type { FlangePart } from '../flange/part.js';
import { type FlangeHole, type FlangeRegion, holeOutline } from '../flange/region.js';
import { engravingOf, type Mark, middleOf } from './engraving.js';
import type { FlatHole, FlatPart, FlatRegion } from './flat-part.js';

/** A head flange as a flat part, with cylinder numbers, the way up and the plan's name marked on it where `marks` are wanted. */
export function flatFlange(part: FlangePart, marks = true): FlatPart {
  const region = flatRegion(part.region, part.units);
  const blended = part.contours.filter((c) => c.face === 'outer').map((c) => c.outline);
  const engraving = engravingOf(region, marks ? marksOf(part, region) : [], blended);
  return {
    path: part.name,
    kind: 'flange',
    name: part.name,
    title: part.title,
    belongs: `head: ${part.headName}`,
    thickness: part.thickness,
    material: part.material,
    region,
    cut: flatRegion(part.cut, part.units),
    kerf: part.kerf,
    size: part.size,
    mass: part.mass,
    count: 1,
    engraving: engraving.strokes,
    blends: part.contours.map(({ face, outline }) => ({ face: face === 'outer' ? 'seen' : 'behind', outline })),
    units: part.units,
    seen: 'seen from the tubes',
    notes: [...part.notes, ...engraving.homeless.map((words) => `no room to mark '${words}'`)],
  };
}

/** Numbers by their openings first; then the way up and the plan's name wherever there is room. */
function marksOf(part: FlangePart, region: FlatRegion): Mark[] {
  const middle = middleOf(region.outer);
  const plan = part.title.split(':')[0]!;
  return [
    ...region.openings.map((o): Mark => ({ words: o.label, near: middleOf(o.outline) })),
    { words: 'UP', near: [outlineBounds(region.outer).to[0], middle[1]], up: true },
    { words: plan, near: middle },
  ];
}

const flatRegion = ({ outer, openings, slots, bolts, dowels }: FlangeRegion, units: LengthUnit): FlatRegion => ({
  outer,
  openings: openings.map((o) => ({
    place: `cylinder ${o.cylinder}`,
    label: String(o.cylinder),
    outline: o.outline,
  })),
  slots,
  holes: [
    ...bolts.map((b, i) => boltHole(b, i, units)),
    ...dowels.map(
      ({ at, diameter }, i): FlatHole => ({
        place: `dowel ${i + 1}`,
        at,
        outline: circleOutline(at, diameter),
        words: `hole ${lengthWords(diameter, units, 2)} for a dowel, reamed`,
        diameter,
        drill: true,
      }),
    ),
  ],
});

function boltHole(b: FlangeHole, i: number, units: LengthUnit): FlatHole {
  const common = { place: `bolt ${i + 1}`, at: b.at, outline: holeOutline(b), drill: b.drill };
  if (b.slot === null)
    return { ...common, words: `hole ${lengthWords(b.diameter, units, 2)} for ${b.thread}`, diameter: b.diameter };
  const size = sizeWords([b.diameter, b.slot.length], units, 2);
  return { ...common, words: `slot ${size} for ${b.thread}`, diameter: null };
}
