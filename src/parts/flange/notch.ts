import { differenceOf } from '../../geometry/outline/clip.js';
import { pointToOutline } from '../../geometry/outline/distance.js';
import { circleOutline, polygonOutline } from '../../geometry/outline/make.js';
import { outlineArea, outlineBounds, signedArea } from '../../geometry/outline/measure.js';
import { offsetOutline } from '../../geometry/outline/offset.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { roundOuterCorners } from '../../geometry/outline/round.js';
import { smoothOutline } from '../../geometry/outline/smooth.js';
import { validateOutline } from '../../geometry/outline/valid.js';
import { add2, distance2, scale2, type Vec2 } from '../../geometry/vec2.js';
import type { NotchPlan } from '../../params/plan/flange.js';

/** Radius at the corners where a notch meets the outer edge, mm: no sharp points on what is handled. */
const CORNER = 1;

/** Sides shorter than this are smoothed away, mm. */
const SMOOTHED_SIDE = 0.1;

/** What became of one notch. */
export interface NotchDone {
  /** As the plan gives it, on the head face, mm. */
  readonly at: Vec2;
  /** 'cut'; 'clear' where the flange does not reach it; else what is in the way and it was not cut. */
  readonly outcome: 'cut' | 'clear' | 'does not reach the outer edge' | 'would cut the flange in two';
}

/** The outer edge with its notches, and what became of each. */
export interface Notched {
  readonly outline: Outline;
  readonly done: readonly NotchDone[];
}

/** Cuts notches into an outer edge. Throws RangeError when the edge does not stay sound. */
export function withNotches(outer: Outline, notches: readonly NotchPlan[], leastSide: number): Notched {
  let outline = outer;
  const done = notches.map((notch): NotchDone => {
    const left = differenceOf(outline, notchOutline(notch, outline));
    if (left.some((o) => signedArea(o) < 0)) return { at: notch.at, outcome: 'does not reach the outer edge' };
    if (left.length !== 1) return { at: notch.at, outcome: 'would cut the flange in two' };
    if (outlineArea(outline) - outlineArea(left[0]!) < 1e-6) return { at: notch.at, outcome: 'clear' };
    outline = left[0]!;
    return { at: notch.at, outcome: 'cut' };
  });
  if (!done.some((d) => d.outcome === 'cut')) return { outline: outer, done };
  outline = smoothOutline(roundOuterCorners(outline, CORNER), SMOOTHED_SIDE);
  validateOutline(outline, { leastSide });
  return { outline, done };
}

/** The room a notch takes. A vee reaches well beyond the flange; its tip is rounded within it. */
function notchOutline(notch: NotchPlan, outer: Outline): Outline {
  if (notch.kind === 'round') return circleOutline(notch.at, 2 * notch.radius);
  const { from, to } = outlineBounds(outer);
  const far = distance2(from, to) + pointToOutline(notch.at, outer).distance + 10 * notch.tip;
  const leg = (side: number): Vec2 => {
    const way = notch.towards + (side * notch.angle) / 2;
    return add2(notch.at, scale2([Math.cos(way), Math.sin(way)], far / Math.cos(notch.angle / 2)));
  };
  const vee = polygonOutline([notch.at, leg(-1), leg(1)]);
  return offsetOutline(offsetOutline(vee, -notch.tip), notch.tip);
}
