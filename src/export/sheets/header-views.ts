import { headingAt } from '../../geometry/path/path.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { Doc } from '../paper/document.js';
import { linePath } from '../paper/draw-outline.js';
import { BODY, words } from '../paper/words.js';
import { flangeHull } from '../svg/flange-hull.js';
import { collectorStrokes, type Stroke, tubeStrokes } from '../svg/overview-strokes.js';
import { onPage, type View } from '../svg/view.js';
import type { Block } from './block.js';
import { bestTwoViews, drawStrokes, EDGE, type PlacedView, placedView } from './header-picture.js';
import { drawLabels, type Label } from './labels.js';
import { scaleThatFits, scaleWords } from './scale.js';
import type { SheetInput } from './sheet-input.js';

/** Room round a view for labels, and below it for its title, mm. */
const ROUND = 5;
const TITLE = 7;

interface Drawn {
  readonly view: View;
  readonly strokes: readonly Stroke[];
  readonly from: Vec2;
  readonly to: Vec2;
}

/** The whole header in the two views that show most of it, at one scale, below each other or side by side, whichever shows it larger. */
export function headerViews(input: SheetInput, width: number, height: number): Block {
  const tubes = [...input.primaries, ...input.secondaries];
  const drawn = bestTwoViews(tubes.map((t) => t.path)).map((view) => sceneOf(input, view));
  const sizes = (k: number): Vec2[] =>
    drawn.map((d) => [k * (d.to[0] - d.from[0]) + 2 * ROUND, k * (d.to[1] - d.from[1]) + 2 * ROUND + TITLE]);
  // Along 0 the views stand side by side, along 1 below each other.
  const scaleAlong = (way: 0 | 1): number =>
    scaleThatFits((k) => {
      const [a, b] = sizes(k);
      const room: Vec2 = [width, height];
      return a![way] + b![way] <= room[way] && Math.max(a![1 - way]!, b![1 - way]!) <= room[1 - way]!;
    });
  const way = scaleAlong(0) > scaleAlong(1) ? 0 : 1;
  const k = scaleAlong(way);
  const used = sizes(k);
  const spare = ([width, height][way]! - used[0]![way] - used[1]![way]) / 2;
  return {
    height,
    draw: (doc, at) => {
      let [x, y] = at;
      drawn.forEach((d, i) => {
        const room: Vec2 = way === 1 ? [width, used[i]![1] + spare] : [used[i]![0] + spare, height];
        const middle: Vec2 = [(d.from[0] + d.to[0]) / 2, (d.from[1] + d.to[1]) / 2];
        const centre: Vec2 = [x + room[0] / 2, y + (room[1] - TITLE) / 2];
        const floor = centre[1] + (k * (d.to[1] - d.from[1])) / 2 + ROUND;
        drawScene(doc, input, d, placedView(d.view, k, middle, centre), [x, y], [x + room[0], floor]);
        words(doc, `${d.view.title}, ${scaleWords(k)}`, centre[0], floor + 4, BODY, 'center');
        if (way === 1) y += room[1];
        else x += room[0];
      });
    },
  };
}

function sceneOf({ plan, primaries, secondaries, collectors, flanges }: SheetInput, view: View): Drawn {
  const strokes = [
    ...collectors.flatMap((c) => collectorStrokes(c.plan, c.geometry, view, '#d9d9d9')),
    ...[...primaries, ...secondaries].flatMap((t) => tubeStrokes(t, 'white')),
  ];
  const points = [
    ...strokes.flatMap((s) =>
      s.points
        .map((p) => onPage(view, p))
        .flatMap(([x, y]): Vec2[] => [
          [x - s.width / 2, y - s.width / 2],
          [x + s.width / 2, y + s.width / 2],
        ]),
    ),
    ...flanges.flatMap((f) => flangeHull(plan, f, view)),
  ];
  const [xs, ys] = [points.map((p) => p[0]), points.map((p) => p[1])];
  return { view, strokes, from: [Math.min(...xs), Math.min(...ys)], to: [Math.max(...xs), Math.max(...ys)] };
}

function drawScene(
  doc: Doc,
  input: SheetInput,
  { view, strokes }: Drawn,
  placed: PlacedView,
  from: Vec2,
  to: Vec2,
): void {
  const { plan, primaries, secondaries, flanges } = input;
  const origin = placed.to([0, 0, 0]);
  const fromPage = ([x, y]: Vec2): Vec2 => [origin[0] + placed.scale * x, origin[1] - placed.scale * y];
  for (const f of flanges) {
    doc.lineWidth(EDGE);
    linePath(doc, flangeHull(plan, f, view).map(fromPage), true).fillAndStroke('#eeeeee', 'black');
  }
  drawStrokes(doc, strokes, placed);
  doc.fillColor('black');
  const labels = [
    ...primaries.map(
      (p): Label => ({ at: placed.to(headingAt(p.path, 0).point), line: String(p.cylinder), ring: true, bold: true }),
    ),
    ...secondaries.map((s): Label => {
      const at = placed.to(headingAt(s.path, s.length / 2).point);
      return { at, line: s.id.length > 18 ? `${s.id.slice(0, 16)}..` : s.id, ring: false, bold: true };
    }),
  ];
  const blockers =
    secondaries.length === 0
      ? []
      : strokes.flatMap((s) => s.points.map((p) => ({ at: placed.to(p), radius: (s.width * placed.scale) / 2 })));
  drawLabels(doc, labels, blockers, from, to);
}
