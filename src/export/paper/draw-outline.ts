import { splitArcs } from '../../geometry/outline/make.js';
import type { Outline } from '../../geometry/outline/outline.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { svgPath } from '../svg/svg-path.js';
import type { Doc } from './document.js';

/** Arcs are handed over in pieces of at most this, rad: a cubic curve then strays less than 5e-6 of the radius. */
const MOST_ARC = Math.PI / 4;

/** An outline with y up as a path of the page, not yet stroked. */
export const outlinePath = (doc: Doc, outline: Outline): Doc => doc.path(svgPath(splitArcs(outline, MOST_ARC)));

/** A closed polygon or open line through points of the page, mm with y down, not yet stroked. */
export function linePath(doc: Doc, points: readonly Vec2[], closed = false): Doc {
  points.forEach(([x, y], i) => {
    if (i === 0) doc.moveTo(x, y);
    else doc.lineTo(x, y);
  });
  return closed ? doc.closePath() : doc;
}
