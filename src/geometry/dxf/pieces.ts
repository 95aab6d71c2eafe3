import type { Piece } from '../contour/contour.js';
import { type Drawn, drawArc, drawCircle, drawEllipse, drawLine, drawSpline, type Reading } from './curves.js';
import type { DxfEntityTags, DxfFile } from './file.js';
import { drawLwpolyline, drawPolyline } from './polylines.js';

/** Every entity that draws lines. A new one is one function and one row here. */
const DRAWN: Readonly<Record<string, (entity: DxfEntityTags, reading: Reading) => Drawn>> = {
  LINE: drawLine,
  ARC: drawArc,
  CIRCLE: drawCircle,
  ELLIPSE: drawEllipse,
  SPLINE: drawSpline,
  LWPOLYLINE: drawLwpolyline,
  POLYLINE: drawPolyline,
};

/** Words, marks and helps for the eye: nothing is cut along them. */
const NOT_CUT: ReadonlySet<string> = new Set(
  'TEXT MTEXT ATTDEF DIMENSION ARC_DIMENSION LARGE_RADIAL_DIMENSION LEADER MULTILEADER TOLERANCE POINT HATCH VIEWPORT IMAGE WIPEOUT OLE2FRAME ACAD_TABLE RAY XLINE'.split(
    ' ',
  ),
);

/** What a drawing has on the layers asked for. */
export interface DxfPieces {
  readonly pieces: readonly Piece[];
  /** How many entities of each kind nothing is cut along were left out. */
  readonly leftOut: ReadonlyMap<string, number>;
}

/** What of a drawing is read, and how. */
export interface DxfWanted extends Reading {
  /** One layer, by any case; when null all that are switched on. */
  readonly layer: string | null;
}

/** True where two layers have one name: DXF does not tell cases apart. */
export const sameLayer = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/**
 * The lines and arcs of a drawing, in mm: splines and ellipses as lines within `error` mm of the curve, all else exactly. Throws
 * RangeError naming the entity and line of what cannot be read.
 */
export function dxfPieces(file: DxfFile, wanted: DxfWanted): DxfPieces {
  const leftOut = new Map<string, number>();
  const pieces: Piece[] = [];
  let left = wanted.most;
  for (const entity of file.entities) {
    const on = wanted.layer === null ? !file.hidden.has(entity.layer) : sameLayer(entity.layer, wanted.layer);
    if (!on) continue;
    if (NOT_CUT.has(entity.type)) {
      leftOut.set(entity.type, (leftOut.get(entity.type) ?? 0) + 1);
      continue;
    }
    const piece = pieceOf(entity, { ...wanted, most: left });
    left -= piece.sides.length;
    if (left < 0) throw new RangeError(`${entity.name}: the contours have more than ${wanted.most} sides`);
    if (piece.sides.length > 0) pieces.push(piece);
  }
  return { pieces, leftOut };
}

function pieceOf(entity: DxfEntityTags, reading: Reading): Piece {
  const draw = Object.hasOwn(DRAWN, entity.type) ? DRAWN[entity.type] : undefined;
  if (draw === undefined) {
    const mend = entity.type === 'INSERT' ? 'is a block; explode it' : 'cannot be read; turn it into lines and arcs';
    throw new RangeError(`${entity.name} on layer ${JSON.stringify(entity.layer)} ${mend}, or choose another layer`);
  }
  const { sides, closed, error } = draw(entity, reading);
  return { name: entity.name, closed, sides: sides.map((side) => ({ side, name: entity.name, error })) };
}
