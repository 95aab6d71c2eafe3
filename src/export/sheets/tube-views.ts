import { pointFrom } from '../../geometry/frame.js';
import { headingAt } from '../../geometry/path/path.js';
import { distance2, lerp2, type Vec2 } from '../../geometry/vec2.js';
import { dot, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import { cylinderOf } from '../../parts/tube/pieces.js';
import type { TubeCuts } from '../../parts/tube/tube-cuts.js';
import type { RoutedTube } from '../../routing/routed.js';
import type { Doc } from '../paper/document.js';
import { linePath } from '../paper/draw-outline.js';
import { BODY, words } from '../paper/words.js';
import { type Stroke, tubeStrokes } from '../svg/overview-strokes.js';
import { onPage, type View } from '../svg/view.js';
import type { Block } from './block.js';
import {
  bestTwoViews,
  drawStrokes,
  EDGE,
  type PlacedView,
  placedView,
  ringInSight,
  ringPoints,
  THIN,
} from './header-picture.js';
import { drawLabels, type Label } from './labels.js';
import { letterOf, shortJoint } from './piece-as-cut.js';
import { scaleThatFits, scaleWords } from './scale.js';

/** Room for labels all round a view, mm. */
const ROUND = 9;

/** A tube with what its views show. */
interface Subject {
  readonly plan: Plan;
  readonly tube: RoutedTube;
  readonly cuts: TubeCuts;
  readonly strokes: readonly Stroke[];
  /** Corners of a piece of the plane the tube starts at. */
  readonly face: readonly Vec3[];
  readonly inlet: readonly Vec3[];
}

/** A tube in the two views that show it best, at one scale, `width` by `height` mm. */
export function tubeViews(plan: Plan, tube: RoutedTube, cuts: TubeCuts, width: number, height: number): Block {
  const subject: Subject = {
    plan,
    tube,
    cuts,
    strokes: tubeStrokes(tube, 'white'),
    face: startFace(plan, tube),
    inlet: ringPoints(
      headingAt(tube.path, tube.length).point,
      plan.collectors[tube.collector]!.frame.z,
      0.75 * tube.sections.at(-1)!.od,
    ),
  };
  const views = bestTwoViews([tube.path]);
  const boxes = views.map((v) => boxOf(subject, v));
  const k = scaleThatFits((s) => {
    const wide = boxes.reduce((sum, b) => sum + s * (b.to[0] - b.from[0]) + 2 * ROUND, 0);
    return wide <= width && boxes.every((b) => s * (b.to[1] - b.from[1]) + 2 * ROUND + 7 <= height);
  });
  const used = boxes.map((b) => k * (b.to[0] - b.from[0]) + 2 * ROUND);
  const spare = (width - used[0]! - used[1]!) / 2;
  return {
    height,
    draw: (doc, [x, y]) => {
      let left = x;
      views.forEach((view, i) => {
        const box = boxes[i]!;
        const room: Vec2 = [used[i]! + spare, height - 7];
        const middle: Vec2 = [(box.from[0] + box.to[0]) / 2, (box.from[1] + box.to[1]) / 2];
        const at: Vec2 = [left + room[0] / 2, y + room[1] / 2];
        const floor = at[1] + (k * (box.to[1] - box.from[1])) / 2 + ROUND;
        drawView(doc, subject, placedView(view, k, middle, at), [left, y], [left + room[0], floor]);
        words(doc, `${view.title}, ${scaleWords(k)}`, at[0], floor + 4, BODY, 'center');
        left += room[0];
      });
    },
  };
}

/** A piece of the head face about the port, or of the plane of the outlet a secondary starts at. */
function startFace(plan: Plan, tube: RoutedTube): Vec3[] {
  const { od } = tube.sections[0]!;
  const cylinder = cylinderOf(tube);
  const start = headingAt(tube.path, 0);
  if (cylinder === null) return ringPoints(start.point, start.direction, 0.75 * od);
  const port = plan.ports.find((p) => p.cylinder === cylinder)!;
  const { frame } = plan.heads[port.head]!;
  const at = { ...frame, origin: start.point };
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([x, y]) => pointFrom(at, [x! * 0.9 * od, y! * 0.9 * od, 0]));
}

function boxOf({ strokes, face, inlet }: Subject, view: View): { from: Vec2; to: Vec2 } {
  const points = [
    ...strokes.flatMap((s) => rings(s).map((p) => onPage(view, p))),
    ...[...face, ...inlet].map((p) => onPage(view, p)),
  ];
  const [xs, ys] = [points.map((p) => p[0]), points.map((p) => p[1])];
  return { from: [Math.min(...xs), Math.min(...ys)], to: [Math.max(...xs), Math.max(...ys)] };
}

/** Points of a stroke's skin. */
const rings = ({ points, width }: Stroke): Vec3[] =>
  points.flatMap((p, i) => {
    const [a, b] = i === 0 ? [p, points[1]!] : [points[i - 1]!, p];
    return ringPoints(p, unit(sub(b, a)), width / 2, 16);
  });

function drawView(doc: Doc, subject: Subject, placed: PlacedView, from: Vec2, to: Vec2): void {
  const { tube, cuts, strokes, face, inlet } = subject;
  doc.lineWidth(EDGE);
  linePath(doc, face.map(placed.to), true).fillAndStroke('#dddddd', 'black');
  drawEnds(doc, tube, placed);
  drawStrokes(doc, strokes, placed);
  drawEnds(doc, tube, placed, true);
  linePath(doc.lineWidth(THIN * 2).dash(1.5, { space: 1 }), inlet.map(placed.to), true)
    .stroke()
    .undash();
  const centre = strokes.flatMap((s) => s.points.map(placed.to));
  linePath(doc.lineWidth(THIN).dash(4, { space: 1.2 }), centre)
    .stroke()
    .undash();
  for (const j of cuts.joints) {
    if (j.kind === 'butt') {
      linePath(doc.lineWidth(EDGE), ringInSight(placed.view, j.point, j.direction, j.od / 2).map(placed.to)).stroke();
    }
  }
  const radius = (placed.scale * tube.sections.at(-1)!.od) / 2;
  const planes = [face, inlet].flatMap((ring) => edgePoints(ring.map(placed.to)));
  const blockers = [...centre.map((at) => ({ at, radius })), ...planes.map((at) => ({ at, radius: 0.8 }))];
  drawLabels(doc, labelsOf(subject, placed), blockers, from, to);
}

/** Points along the sides of a polygon, no more than 2 mm apart. */
const edgePoints = (polygon: readonly Vec2[]): Vec2[] =>
  polygon.flatMap((a, i) => {
    const b = polygon[(i + 1) % polygon.length]!;
    const n = Math.ceil(distance2(a, b) / 2) || 1;
    return Array.from({ length: n }, (_, k) => lerp2(a, b, k / n));
  });

/** The open ends: those turned away lie behind the tube, those turned to the eye before it. */
function drawEnds(doc: Doc, { path, length, sections }: RoutedTube, { view, to }: PlacedView, nearer = false): void {
  const ends: readonly (readonly [number, number, number])[] = [
    [0, sections[0]!.od, -1],
    [length, sections.at(-1)!.od, 1],
  ];
  for (const [run, od, outwards] of ends) {
    const { point, direction } = headingAt(path, run);
    if (outwards * dot(direction, view.towards) > 1e-6 !== nearer) continue;
    linePath(doc.lineWidth(EDGE), ringPoints(point, direction, (od - EDGE) / 2).map(to), true).fillAndStroke(
      'white',
      'black',
    );
  }
  doc.fillColor('black');
}

function labelsOf({ plan, tube, cuts, face, inlet }: Subject, { to }: PlacedView): Label[] {
  const first = cylinderOf(tube) === null ? 'outlet' : 'head face';
  const middle = (run: number): Vec2 => to(headingAt(tube.path, run).point);
  const outermost = (points: readonly Vec3[]): Vec2 => points.map(to).reduce((a, b) => (b[1] < a[1] - 1e-6 ? b : a));
  const several = plan.collectors.length > 1 ? ` of ${plan.collectors[tube.collector]!.name}` : '';
  const inletWords = `inlet ${tube.inlet}${several}`;
  return [
    ...cuts.pieces.map((c): Label => {
      const at = middle((c.piece.fromRun + c.piece.toRun) / 2);
      return { at, line: letterOf(c), ring: true, bold: true };
    }),
    ...cuts.joints.map((j): Label => ({ at: to(j.point), line: shortJoint(j), ring: false })),
    { at: outermost(face), line: first, ring: false },
    { at: outermost(inlet), line: inletWords.length > 24 ? `inlet ${tube.inlet}` : inletWords, ring: false },
  ];
}
