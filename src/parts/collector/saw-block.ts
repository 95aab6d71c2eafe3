import { degrees } from '../../geometry/angle.js';
import { directionInto, type Frame, frameFrom, pointInto } from '../../geometry/frame.js';
import type { Plane } from '../../geometry/plane.js';
import { difference, placed, type Solid, trimmed } from '../../geometry/solid/solid.js';
import { bar, box } from '../../geometry/solid/solid-shapes.js';
import { textSolid, textStrokes } from '../../geometry/solid/text-solid.js';
import { dot, sub, type Vec3 } from '../../geometry/vec3.js';
import { lengthWords } from '../../params/faults/wording.js';
import type { JigPlan } from '../../params/plan.js';
import type { LengthUnit } from '../../params/units.js';
import { ENGRAVED } from '../jigs/printed-writing.js';
import type { SolidPart } from '../part.js';
import { printedPart } from '../printed-part.js';
import type { Collector } from './collector.js';
import type { InletCut } from './inlet-cut.js';
import type { CollectorGeometry } from './merge-geometry.js';

/** Plastic round the bore, mm. */
const WALL = 6;

/** Length of whole bore before the cut begins, and of block beyond its end, mm. */
const GRIP = 25;
const BEYOND_TOE = 4;

/** The notch for the tube's clocking line: width and length along the tube, mm. */
const NOTCH = { width: 1.6, length: 4 } as const;

/** How far the stop for the tube's end reaches in, mm: over a tube's wall, and short of closing the bore. */
const STOP = 3;

/** A block that holds one tube while it is cut, in the tube's inlet frame; mm. */
export interface SawBlock {
  /** Where the block begins and ends along the tube, from its inlet end: where it begins before it, the end stands on a stop. */
  readonly from: number;
  readonly to: number;
  /** Radius of the bore. */
  readonly bore: number;
  /** Guide faces in the inlet's frame: the cut planes; one for two inlets. Normals point to the block. */
  readonly faces: readonly Plane[];
}

/** The saw block of an inlet's cut; null for a tube that is not cut. `fit` is the gap per side in the bore, mm. */
export function sawBlock({ outside }: CollectorGeometry, cut: InletCut, fit: number): SawBlock | null {
  const { heel, toe, frame, planes } = cut;
  if (heel === null || toe === null) return null;
  const inFrame = planes.map(
    (p): Plane => ({ point: pointInto(frame, p.point), normal: directionInto(frame, p.normal) }),
  );
  const [a, b] = inFrame as [Plane, Plane];
  const faces = dot(a.normal, b.normal) > 1 - 1e-12 ? [a] : [a, b];
  return { from: heel - GRIP, to: toe + BEYOND_TOE, bore: outside + fit, faces };
}

/**
 * The block in the inlet's frame: a bore for the tube, a flat foot on the side away from the collector's axis, the cut planes as
 * faces the saw runs on, a notch through to the bore on the side of the axis for the tube's clocking line, the cut angle and
 * the number of tubes engraved on its side. Where a cut begins near the tube's end, the end stands on a stop within the block.
 */
function sawBlockSolid(block: SawBlock, angle: number, tubes: number): Solid {
  const { from, to, bore, faces } = block;
  const side = bore + WALL;
  const body = faces.reduce((solid, plane) => trimmed(solid, plane), box([-side, -side, from], [side, side, to]));
  const sight = Math.max(from, 1);
  const notch = box(
    [-side - 1, -NOTCH.width / 2, sight === from ? from - 1 : sight],
    [0, NOTCH.width / 2, sight + NOTCH.length],
  );
  const words = `${tubes}X ${degrees(angle).toFixed(2)}`;
  return difference(body, ...bores(block), notch, ...engraved(block, words));
}

/** Room for the tube, and where it has a stop a narrower hole before it, to see and push the tube out by. */
function bores({ from, to, bore }: SawBlock): Solid[] {
  if (from >= 0) return [bar(bore, from - 1, to + 1)];
  return [bar(bore, 0, to + 1), bar(Math.max(bore / 2, bore - STOP), from - 1, 1)];
}

/** Heights of the engraving tried, mm. */
const HEIGHTS = [9, 8, 7, 6, 5, 4] as const;

/** Words on the side of the block near its foot and its beginning, as large as there is room; none where there is none. */
function engraved({ from, to, bore, faces }: SawBlock, words: string): Solid[] {
  const side = bore + WALL;
  for (const height of HEIGHTS) {
    const strokes = textStrokes(words, height);
    const [middle, start] = [side - height / 2 - 2, from + 3];
    const corners = [-1, 1].flatMap((u) =>
      [start, start + strokes.width].map((z): Vec3 => [middle + (u * height) / 2, -side, z]),
    );
    const onBlock = corners.every((p) => faces.every((f) => dot(f.normal, sub(p, f.point)) > 1));
    if (!onBlock || start + strokes.width > to - 2) continue;
    // seen from -y with the foot down: the tube's way runs to the right, up is -x
    const at: Frame = {
      origin: [middle, -side, start + strokes.width / 2],
      x: [0, 0, 1],
      y: [-1, 0, 0],
      z: [0, -1, 0],
    };
    return [placed(textSolid(strokes, -ENGRAVED, 1), at)];
  }
  return [];
}

/** Lies on its foot, the tube level. */
const ON_FOOT: Frame = { origin: [0, 0, 0], x: [0, 0, 1], y: [0, 1, 0], z: [-1, 0, 0] };

/** The block for a collector's tubes: all are cut alike, so one serves them all. None for tubes that are not cut. */
export function sawBlocks({ plan, geometry, part }: Collector, { bed, fit, chamfer, units }: JigPlan): SolidPart[] {
  const cut = geometry.cuts[0]!;
  const block = sawBlock(geometry, cut, fit);
  if (block === null) return [];
  const angle = degrees(cut.angle).toFixed(2);
  const cuts = block.faces.length === 1 ? 'one cut' : 'two cuts';
  return [
    printedPart(
      {
        name: `${part.name}-saw-block`,
        kind: 'saw-block',
        title: `Saw block for ${geometry.inlets} tubes of collector ${plan.name}, ${cuts} at ${angle} deg to the tube: ${placeOf(block, units)}, the notch on the line that faces the collector's axis`,
        solid: sawBlockSolid(block, cut.angle, geometry.inlets),
        at: frameFrom(plan.frame, cut.frame),
        up: ON_FOOT,
        chamfer,
      },
      bed,
    ),
  ];
}

/** Where the tube stands in its block, in words. */
const placeOf = ({ from }: SawBlock, units: LengthUnit): string =>
  from < 0
    ? "the tube's inlet end stands on the stop inside"
    : `the end face with the notch stands ${lengthWords(from, units, 1)} from the tube's inlet end`;
