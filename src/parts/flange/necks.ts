import { differenceOf } from '../../geometry/outline/clip.js';
import { outlineArea, outlineBounds, signedArea } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { roundOuterCorners } from '../../geometry/outline/round.js';
import { rotateOutline, translateOutline } from '../../geometry/outline/transform.js';
import type { FlangeCore, PlateShape } from './core.js';
import { onePiece } from './plate.js';
import type { Relief } from './relief.js';
import { freeParts, holeSeen, type Line, linesOf, type Span, seenFrom } from './relief-line.js';

/** Shorter necks, mm, bend no easier than the plate beside them and are hard to cut. Common practice, no source. */
const LEAST_NECK = 3;

/** Radius at the corners where a neck's cut meets the outer edge, mm. */
const CORNER = 1.5;

/** Where a neck goes on a line and how long it gets: clear of every opening and hole by the edges asked, `extra` mm more. */
function neckOn(core: FlangeCore, line: Line, length: number, extra: number): Span | null {
  const taken = [
    ...core.openings.map((o): Span => {
      const { from, to } = outlineBounds(seenFrom(line, o.outline));
      return { from: from[0] - core.portEdge - extra, to: to[0] + core.portEdge + extra };
    }),
    ...core.holes.map((h): Span => {
      const { s, reach } = holeSeen(line, h);
      return { from: s - reach - core.holeEdge - extra, to: s + reach + core.holeEdge + extra };
    }),
  ];
  const [room] = freeParts({ from: 0, to: line.length }, taken);
  if (room === undefined || room.to - room.from < LEAST_NECK) return null;
  const half = Math.min(length, room.to - room.from) / 2;
  const middle = (room.from + room.to) / 2;
  return { from: middle - half, to: middle + half };
}

/** The plate in one piece with a cut from either edge between ports, so that a neck of a width stays for a length along their line, mm. */
export function necked(width: number, length: number): PlateShape {
  return (core, extra) => {
    const [plate] = onePiece(core, extra);
    let outline = plate!;
    let cutAny = false;
    for (const line of linesOf(core)) {
      const span = neckOn(core, line, length, extra);
      if (span === null) continue;
      for (const side of [1, -1] as const) {
        const left = withoutCut(outline, line, span, (side * width) / 2, core.fillet);
        if (left === null) continue;
        outline = left;
        cutAny = true;
      }
    }
    return [cutAny && core.fillet > 0 ? roundOuterCorners(outline, Math.min(CORNER, width / 4)) : outline];
  };
}

/** The outline with a cut from `bottom` mm off the line outwards; null where there is nothing to cut or something would fall off. */
function withoutCut(outline: Outline, line: Line, span: Span, bottom: number, fillet: number): Outline | null {
  const { from, to } = outlineBounds(seenFrom(line, outline));
  const far = bottom > 0 ? to[1] + 10 : from[1] - 10;
  if (Math.abs(far) - 10 <= Math.abs(bottom) + 0.5) return null;
  const cut = cutOutline(span, bottom, far, Math.min(fillet, (span.to - span.from) / 2));
  const placed = translateOutline(rotateOutline(cut, line.along[0], line.along[1]), line.from);
  const left = differenceOf(outline, placed);
  const whole = left.length === 1 && signedArea(left[0]!) > 0;
  return whole && outlineArea(outline) - outlineArea(left[0]!) > 1 ? left[0]! : null;
}

/** A cut seen from its line: from `bottom`, with rounded corners there, out to `far`, both above the line or both below. Counter-clockwise. */
function cutOutline({ from, to }: Span, bottom: number, far: number, radius: number): Outline {
  const [low, high] = [Math.abs(bottom), Math.abs(far)];
  const quarter = { bulge: Math.SQRT2 - 1 };
  const flat = to - from - 2 * radius > 1e-6;
  const floor =
    radius > 0
      ? [
          { x: from, y: low + radius, ...quarter },
          { x: from + radius, y: low, ...(flat ? { bulge: 0 } : quarter) },
          ...(flat ? [{ x: to - radius, y: low, ...quarter }] : []),
          { x: to, y: low + radius, bulge: 0 },
        ]
      : [
          { x: from, y: low, bulge: 0 },
          { x: to, y: low, bulge: 0 },
        ];
  const vertices = [{ x: from, y: high, bulge: 0 }, ...floor, { x: to, y: high, bulge: 0 }];
  return { vertices: bottom > 0 ? vertices : vertices.map((v) => ({ ...v, x: from + to - v.x, y: -v.y })) };
}

/** The necks there is room for. */
export const necksOf = (core: FlangeCore, length: number, extra: number): readonly Relief[] =>
  linesOf(core).map((line) => {
    const span = neckOn(core, line, length, extra);
    return { kind: 'neck', between: line.between, length: span === null ? 0 : span.to - span.from };
  });
