import type { Frame } from '../../geometry/frame.js';
import { pointFrom } from '../../geometry/frame.js';
import { pathLength } from '../../geometry/path/path.js';
import { type Strokes, textStrokes } from '../../geometry/solid/text-solid.js';
import { heightOver, skinFrame, type TubeSkin } from '../../geometry/sweep/tube-skin.js';
import { RAISED } from './printed-writing.js';

/** A rectangle of the unrolled skin that is not free: middle and half sizes along, mm, and round, rad. */
export interface Taken {
  readonly run: number;
  readonly halfRun: number;
  readonly angle: number;
  readonly halfAngle: number;
  /** The flat a lying tube stands on: what is cut may cross it, what is raised may not. */
  readonly foot?: boolean;
}

/** Words to be written on a skin, along the tube. */
export interface SkinTextPlace {
  readonly skin: TubeSkin;
  /** Middle of the writing. */
  readonly run: number;
  readonly angle: number;
  /** Height wanted and the least, mm. */
  readonly most: number;
  readonly least: number;
  readonly taken: readonly Taken[];
  /** What is kept clear at either end, mm. */
  readonly clear: readonly [start: number, end: number];
}

/** Words as they stand on a skin. */
export interface SkinText {
  readonly strokes: Strokes;
  /** z out of the skin, x along the tube. */
  readonly frame: Frame;
  /** How far the writing must reach below its frame to be fused to the tube everywhere, mm. */
  readonly sunk: number;
  readonly place: Taken;
}

/** Room between writing and anything else on the skin, mm. */
const ROOM = 0.8;

/** A skin may fall away below the writing by this, and rise above its foot by that, mm. */
const MOST_FALL = 0.4;
const MOST_RISE = 0.1;

/** Most that writing or a tick stands proud of a skin, mm: what goes round a dummy tube leaves as much room. */
export const PROUD = RAISED + MOST_FALL;

/** How far writing is sunk below the deepest skin under it, mm. */
const FUSED = 0.5;

/** The words as large as they fit where they are wanted; null where there is no room for the least height. */
export function skinText(words: string, at: SkinTextPlace): SkinText | null {
  const { skin, run, angle, clear } = at;
  const whole = pathLength(skin.path);
  for (let height = Math.min(at.most, Math.max(at.least, (2 * skin.radius) / 3)); height >= at.least; height -= 0.5) {
    const strokes = textStrokes(words, height);
    const [halfRun, half] = [strokes.width / 2 + ROOM, strokes.height / 2 + ROOM];
    const place: Taken = { run, halfRun, angle, halfAngle: half / skin.radius };
    if (run - halfRun < clear[0] || run + halfRun > whole - clear[1]) continue;
    if (at.taken.some((t) => overlaps(t, place, skin))) continue;
    const frame = skinFrame(skin, run, angle);
    const heights = heightsUnder(strokes, frame, skin, run);
    const [low, high] = [Math.min(...heights), Math.max(...heights)];
    if (low < -MOST_RISE || high > MOST_FALL) continue;
    return { strokes, frame, sunk: high + FUSED, place };
  }
  return null;
}

/** Heights over the skin of the corners and side middles of the writing's box. */
function heightsUnder({ width, height }: Strokes, frame: Frame, skin: TubeSkin, run: number): number[] {
  return [-0.5, 0, 0.5].flatMap((u) =>
    [-0.5, 0, 0.5].map((v) => heightOver(skin, run + u * width, pointFrom(frame, [u * width, v * height, 0]))),
  );
}

function overlaps(a: Taken, b: Taken, skin: TubeSkin): boolean {
  const between = Math.abs(Math.atan2(Math.sin(a.angle - b.angle), Math.cos(a.angle - b.angle)));
  // on a bend places away from the outside lie nearer together than their running lengths say
  const tight = tightness(skin, b.angle);
  return between < a.halfAngle + b.halfAngle && Math.abs(a.run - b.run) < a.halfRun + b.halfRun / tight;
}

/** Length along the skin at an angle over that along the centreline, in the bend of the path; 1 on a straight. */
function tightness({ path, radius }: TubeSkin, angle: number): number {
  const bend = path.segments.find((s) => s.kind === 'bend');
  return bend?.kind === 'bend' ? Math.max(0.2, Math.min(1, 1 + (radius * Math.cos(angle)) / bend.clr)) : 1;
}
