import { headingIn, type Path, segmentLength } from '../../geometry/path/path.js';
import { distance2, lerp2, type Vec2 } from '../../geometry/vec2.js';
import { cross, dot, scale, unit, type Vec3 } from '../../geometry/vec3.js';
import type { Doc } from '../paper/document.js';
import { linePath } from '../paper/draw-outline.js';
import type { Stroke } from '../svg/overview-strokes.js';
import { nearness, onPage, VIEWS, type View } from '../svg/view.js';

/** Width of visible edges, of thin lines, mm on the paper. */
export const EDGE = 0.3;
export const THIN = 0.15;

/** A view laid on the page: takes world points to points of the page, mm with y down. */
export interface PlacedView {
  readonly view: View;
  readonly scale: number;
  readonly to: (p: Vec3) => Vec2;
}

/** Lays a view on the page so that a point of the view's own plane falls on a point of the page. */
export const placedView = (view: View, k: number, from: Vec2, at: Vec2): PlacedView => ({
  view,
  scale: k,
  to: (p) => {
    const [x, y] = onPage(view, p);
    return [at[0] + k * (x - from[0]), at[1] - k * (y - from[1])];
  },
});

/** The two of the standard views that show most of the centrelines' length, in their usual order. */
export function bestTwoViews(paths: readonly Path[]): readonly [View, View] {
  const shown = VIEWS.map((view) => ({ view, length: paths.reduce((sum, p) => sum + shownLength(view, p), 0) }));
  const [a, b] = [...shown].sort((p, q) => q.length - p.length || VIEWS.indexOf(p.view) - VIEWS.indexOf(q.view));
  return VIEWS.indexOf(a!.view) < VIEWS.indexOf(b!.view) ? [a!.view, b!.view] : [b!.view, a!.view];
}

/** Length of a path as a view shows it, mm. */
function shownLength(view: View, path: Path): number {
  const points = path.segments.flatMap((s) => {
    const n = s.kind === 'bend' ? 12 : 1;
    return Array.from({ length: n + 1 }, (_, i) => onPage(view, headingIn(s, (segmentLength(s) * i) / n).point));
  });
  return points.slice(1).reduce((sum, p, i) => sum + distance2(p, points[i]!), 0);
}

/** Runs of tube from the farthest to the nearest, each with its two edges. */
export function drawStrokes(doc: Doc, strokes: readonly Stroke[], { view, scale: k, to }: PlacedView): void {
  const depth = (s: Stroke): number => s.points.reduce((sum, p) => sum + nearness(view, p), 0) / s.points.length;
  doc.save().lineJoin('round').lineCap('butt');
  for (const s of [...strokes].sort((a, b) => depth(a) - depth(b))) {
    const points = s.points.map(to);
    const [a, b] = [points[0]!, points.at(-1)!];
    if (distance2(a, b) < 0.02) {
      doc
        .lineWidth(EDGE)
        .circle(a[0], a[1], (s.width * k) / 2 - EDGE / 2)
        .fillAndStroke(s.colour, 'black');
      continue;
    }
    const skin = [beyond(points[1]!, a), ...points.slice(1, -1), beyond(points.at(-2)!, b)];
    linePath(doc.lineWidth(s.width * k).strokeColor('black'), points).stroke();
    linePath(doc.lineWidth(Math.max(s.width * k - 2 * EDGE, 0.1)).strokeColor(s.colour), skin).stroke();
  }
  doc.restore();
}

/** A little beyond `end` on the line from `before`, so that neighbouring runs show no seam. */
function beyond(before: Vec2, end: Vec2): Vec2 {
  const l = distance2(before, end);
  return l < 0.05 ? end : lerp2(before, end, 1 + 0.2 / l);
}

/** A circle in space as points, from a unit direction square to its axis. */
export function ringPoints(centre: Vec3, axis: Vec3, radius: number, count = 48): Vec3[] {
  const helper: Vec3 = Math.abs(axis[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0];
  const u = unit(cross(axis, helper));
  const v = cross(axis, u);
  return Array.from({ length: count }, (_, i): Vec3 => {
    const a = (2 * Math.PI * i) / count;
    const [c, s] = [radius * Math.cos(a), radius * Math.sin(a)];
    return [centre[0] + c * u[0] + s * v[0], centre[1] + c * u[1] + s * v[1], centre[2] + c * u[2] + s * v[2]];
  });
}

/** The half of a ring round a tube that faces the eye, from one edge of the tube to the other; all of it where it is seen end-on. */
export function ringInSight(view: View, centre: Vec3, axis: Vec3, radius: number): Vec3[] {
  const across = cross(axis, view.towards);
  if (dot(across, across) < 1e-6) {
    const ring = ringPoints(centre, axis, radius);
    return [...ring, ring[0]!];
  }
  const edge = unit(across);
  const front = cross(edge, axis);
  const facing = dot(front, view.towards) > 0 ? front : scale(front, -1);
  return Array.from({ length: 25 }, (_, i): Vec3 => {
    const a = (Math.PI * i) / 24;
    const [c, s] = [radius * Math.cos(a), radius * Math.sin(a)];
    return [
      centre[0] + c * edge[0] + s * facing[0],
      centre[1] + c * edge[1] + s * facing[1],
      centre[2] + c * edge[2] + s * facing[2],
    ];
  });
}
