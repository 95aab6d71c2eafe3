import type { Vec2 } from '../vec2.js';
import { chainSides } from './chain.js';
import { windingNumber } from './contains.js';
import { onSide } from './crossings.js';
import { cutAtCrossings, withoutDoubles } from './fragments.js';
import { signedArea } from './measure.js';
import type { Outline } from './outline.js';
import { pointAlong, type Side, sidesOf } from './sides.js';
import { reverseOutline, translateOutline } from './transform.js';
import { AREA_AGREEMENT, NUDGES, uncoveredArea } from './union.js';

/** A piece this near to the other outline, mm, runs along it. */
const ALONG = 1e-7;

/** What two counter-clockwise outlines have in common, arcs kept as arcs; empty when they lie apart. Throws Error when no try gives the right area. */
export const intersectionOf = (a: Outline, b: Outline): readonly Outline[] =>
  clipped(a, b, 'both', (union) => signedArea(a) + signedArea(b) - union);

/**
 * What is left of a counter-clockwise outline without another: outer outlines counter-clockwise, a hole clockwise. Arcs are kept as
 * arcs. Throws Error when no try gives the right area.
 */
export const differenceOf = (a: Outline, b: Outline): readonly Outline[] =>
  clipped(a, b, 'first', (union) => union - signedArea(b));

function clipped(a: Outline, b: Outline, kept: 'both' | 'first', areaOf: (union: number) => number) {
  const failures: string[] = [];
  for (const nudge of NUDGES) {
    const moved = translateOutline(b, nudge);
    const expected = areaOf(uncoveredArea([a, moved]));
    const loops = walk(a, moved, kept);
    const found = loops.reduce((sum, o) => sum + signedArea(o), 0);
    if (Math.abs(found - expected) <= AREA_AGREEMENT * Math.max(expected, signedArea(a), 1)) return loops;
    failures.push(`area ${found} mm2 where ${expected} mm2 was due`);
  }
  throw new Error(`no clean cut of one outline by another was found: ${failures.join('; ')}`);
}

/** The pieces of both outlines that bound the result, chained. The second runs backwards where it is taken away. */
function walk(a: Outline, b: Outline, kept: 'both' | 'first'): readonly Outline[] {
  const first = sidesOf(a);
  const second = sidesOf(kept === 'both' ? b : reverseOutline(b));
  const pieces = cutAtCrossings([...first, ...second]).filter((piece) => {
    const middle = pointAlong(piece, 0.5);
    const [onFirst, onSecond] = [lies(middle, first), lies(middle, second)];
    if (onFirst && onSecond) return true;
    if (onFirst) return (windingNumber(middle, second) !== 0) === (kept === 'both');
    return windingNumber(middle, first) !== 0;
  });
  return chainSides(withoutDoubles(pieces, 1e-5));
}

const lies = (p: Vec2, sides: readonly Side[]): boolean => sides.some((s) => onSide(p, s, ALONG));
