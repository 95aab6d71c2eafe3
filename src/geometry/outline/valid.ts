import { JOIN_TOLERANCE } from '../tolerance.js';
import { distance2 } from '../vec2.js';
import { sideCrossings } from './crossings.js';
import { signedArea } from './measure.js';
import type { Outline } from './outline.js';
import { type Side, sideLength, sidesOf } from './sides.js';

/** What an outline must keep beside being finite and free of crossings. */
export interface OutlineLimits {
  /** Shortest side allowed, mm. */
  readonly leastSide?: number;
  readonly turning?: 'counter-clockwise' | 'clockwise' | 'either';
}

/** Throws RangeError with the reason and the place unless an outline is finite, has area, runs as asked, has no short side and never meets itself. */
export function validateOutline(outline: Outline, limits: OutlineLimits = {}): void {
  const { leastSide = JOIN_TOLERANCE, turning = 'counter-clockwise' } = limits;
  const v = outline.vertices;
  if (v.length < 2) throw new RangeError(`an outline needs two vertices or more, got ${v.length}`);
  v.forEach((p, i) => {
    if (![p.x, p.y, p.bulge].every(Number.isFinite)) {
      throw new RangeError(`vertex ${i} of an outline is not finite: ${p.x}, ${p.y}, bulge ${p.bulge}`);
    }
  });
  const sides = sidesOf(outline);
  sides.forEach((s, i) => {
    const l = sideLength(s);
    if (!(l >= leastSide))
      throw new RangeError(`side ${i} of an outline is ${l} mm long at ${at(s)}, least is ${leastSide} mm`);
  });
  const area = signedArea(outline);
  if (area === 0) throw new RangeError('an outline encloses no area');
  if (turning !== 'either' && area > 0 !== (turning === 'counter-clockwise')) {
    throw new RangeError(`an outline that must run ${turning} runs the other way`);
  }
  for (let i = 0; i < sides.length; i++) for (let j = i + 1; j < sides.length; j++) refuseMeeting(sides, i, j);
}

function refuseMeeting(sides: readonly Side[], i: number, j: number): void {
  const a = sides[i]!;
  const b = sides[j]!;
  const shared = [...(j === i + 1 ? [a.to] : []), ...(i === 0 && j === sides.length - 1 ? [a.from] : [])];
  const meets = sideCrossings(a, b).filter((p) => !shared.some((q) => distance2(p, q) < JOIN_TOLERANCE));
  if (meets.length > 0) {
    throw new RangeError(
      `sides ${i} and ${j} of an outline meet at ${meets[0]!.map((c) => c.toFixed(4)).join(', ')} mm`,
    );
  }
}

const at = (s: Side): string => s.from.map((c) => c.toFixed(4)).join(', ');
