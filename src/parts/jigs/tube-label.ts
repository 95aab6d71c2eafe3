import type { Frame } from '../../geometry/frame.js';
import { type Strokes, textStrokes } from '../../geometry/solid/text-solid.js';

/** Height of the writing: as wanted, and the least a printer can draw, mm. */
const HEIGHT = 10;
const LEAST_HEIGHT = 4;

/** Room kept clear at either end of the piece, mm. */
const CLEAR = 3;

/** Where on a tube a name goes. */
export interface LabelPlace {
  /** Length of the piece, mm. */
  readonly length: number;
  /** Centreline radius of the bend it lies on, mm; infinite on a straight. */
  readonly clr: number;
  /** Frame of the writing on the skin of a tube of that radius: z outwards, x along the tube. */
  readonly frame: (radius: number) => Frame;
}

export interface TubeLabel {
  readonly strokes: Strokes;
  /** How far the writing must reach below the crown to be fused to the round tube everywhere, mm. */
  readonly sunk: number;
}

/** The name as it fits on the tube; null when there is no room for letters of 4 mm. */
export function labelStrokes(name: string, place: LabelPlace, od: number): TubeLabel | null {
  const room = place.length - 2 * CLEAR;
  for (let height = Math.min(HEIGHT, od / 3); height >= LEAST_HEIGHT; height -= 0.5) {
    const strokes = textStrokes(name, height);
    const [w, h] = [strokes.width / 2, strokes.height / 2];
    // the tube bends away sideways under the writing, which is straight
    const off = h + (Number.isFinite(place.clr) ? place.clr - Math.sqrt(Math.max(0, place.clr ** 2 - w * w)) : 0);
    if (strokes.width > room || off > od / 3) continue;
    return { strokes, sunk: od / 2 - Math.sqrt((od / 2) ** 2 - off * off) + 0.5 };
  }
  return null;
}
