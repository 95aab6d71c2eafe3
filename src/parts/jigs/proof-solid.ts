import { outlineContains } from '../../geometry/outline/contains.js';
import { flattenOutline } from '../../geometry/outline/flatten.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import { difference, placed, type Solid } from '../../geometry/solid/solid.js';
import { box, circlePoints, prism } from '../../geometry/solid/solid-shapes.js';
import { type Strokes, textSolid, textStrokes } from '../../geometry/solid/text-solid.js';
import { add2, scale2, type Vec2 } from '../../geometry/vec2.js';
import { type FlangeOpening, type FlangeRegion, holeOutline } from '../flange/region.js';
import { ENGRAVED } from './printed-writing.js';
import { metalAbout, type Notch, notchOf, TAB } from './proof-plate.js';

/** Metal left between an engraved number and any edge, mm. */
const MARGIN = 1.5;

/** The printed flange in the frame of its head: openings, bolt holes, notches for round plugs, cylinder numbers on the outer face. */
export function proofSolid(region: FlangeRegion, thickness: number, fit: number): Solid {
  const through = (points: readonly Vec2[]): Solid => prism(points, -1, thickness + 1);
  const openings = region.openings.map((o) => through(flattenOutline(o.outline)));
  const round = [...region.bolts.filter((b) => b.slot === null), ...region.dowels];
  const bolts = round.map((b) =>
    through(circlePoints(b.diameter / 2, undefined, 'chords-outside').map((p) => add2(p, b.at))),
  );
  const slots = [...region.bolts.filter((b) => b.slot !== null).map(holeOutline), ...region.slots].map((o) =>
    through(flattenOutline(o)),
  );
  const notches = region.openings.flatMap((o) => {
    const notch = notchOf(region, o);
    return notch === null ? [] : [tabSolid(notch, thickness, thickness + 1, fit)];
  });
  const numbers = region.openings.flatMap((o) => {
    const place = numberPlace(region, o);
    if (place === null) return [];
    return [placed(textSolid(place.strokes, -ENGRAVED, 1), numberFrame(place.at, thickness))];
  });
  return difference(
    prism(flattenOutline(region.outer), 0, thickness),
    ...openings,
    ...bolts,
    ...slots,
    ...notches,
    ...numbers,
  );
}

const numberFrame = ([x, y]: Vec2, z: number) => ({
  origin: [x, y, z] as const,
  x: [1, 0, 0] as const,
  y: [0, 1, 0] as const,
  z: [0, 0, 1] as const,
});

/** The tab of a round plug, or with `grown` the pocket it goes into; from `top` downwards by its depth, up to `upTo`. */
export function tabSolid({ at, out }: Notch, top: number, upTo: number, grown: number): Solid {
  const half = TAB.width / 2 + grown;
  return placed(box([-1.5, -half, top - TAB.depth - grown], [TAB.reach + grown, half, upTo]), {
    origin: [at[0], at[1], 0],
    x: [out[0], out[1], 0],
    y: [-out[1], out[0], 0],
    z: [0, 0, 1],
  });
}

interface NumberPlace {
  readonly at: Vec2;
  readonly strokes: Strokes;
}

/** Where a cylinder's number fits on the plate: as large and as near its opening as can be; null where there is no room for 3 mm. */
function numberPlace(region: FlangeRegion, opening: FlangeOpening): NumberPlace | null {
  const { from, to } = outlineBounds(opening.outline);
  const middle = scale2(add2(from, to), 0.5);
  const least = Math.min(to[0] - from[0], to[1] - from[1]) / 2;
  const most = Math.max(to[0] - from[0], to[1] - from[1]) / 2 + 25;
  for (let height = 8; height >= 3; height--) {
    const strokes = textStrokes(String(opening.cylinder), height);
    for (let r = least; r <= most; r += 1) {
      for (let k = 0; k < 32; k++) {
        const a = Math.PI / 2 + (2 * Math.PI * k) / 32;
        const at: Vec2 = [middle[0] + r * Math.cos(a), middle[1] + r * Math.sin(a)];
        if (isFree(region, at, strokes)) return { at, strokes };
      }
    }
  }
  return null;
}

function isFree(region: FlangeRegion, at: Vec2, { width, height }: Strokes): boolean {
  if (metalAbout(region, at) < Math.min(width, height) / 2 + MARGIN) return false;
  for (const u of [-1, -0.5, 0, 0.5, 1]) {
    for (const v of [-1, -0.5, 0, 0.5, 1]) {
      const p: Vec2 = [at[0] + (u * width) / 2, at[1] + (v * height) / 2];
      const open = [...region.openings.map((o) => o.outline), ...region.slots];
      const onMetal = outlineContains(region.outer, p) && !open.some((o) => outlineContains(o, p));
      if (!onMetal || metalAbout(region, p) < MARGIN) return false;
    }
  }
  return !region.bolts.some((b) => Math.hypot(at[0] - b.at[0], at[1] - b.at[1]) < b.diameter / 2 + MARGIN);
}
