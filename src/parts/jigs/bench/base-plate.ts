import { type Frame, WORLD } from '../../../geometry/frame.js';
import { difference, evaluate, placed, type Solid, solidOf, union } from '../../../geometry/solid/solid.js';
import { circlePoints, prism } from '../../../geometry/solid/solid-shapes.js';
import { textSolid, textStrokes } from '../../../geometry/solid/text-solid.js';
import { add2, type Vec2 } from '../../../geometry/vec2.js';
import type { BenchPlan, JigPlan } from '../../../params/plan.js';
import type { SolidPart } from '../../part.js';
import { printedPart } from '../../printed-part.js';
import { letters } from '../../tube/letters.js';
import { ENGRAVED } from '../printed-writing.js';
import { COMES_OFF } from './bench-caution.js';
import type { Hole } from './saddle-post.js';

/** 'A1': columns by letter along x, rows by number along y. */
export const holeName = ([column, row]: Hole): string => `${letters(column)}${row + 1}`;

/** A stretch of columns or rows on one plate: the first, and the one after the last. */
type Span = readonly [from: number, to: number];

/** Dovetail over the pitch: how long, how wide at its root, how much wider on either side at its end. Our own. */
const TONGUE = { length: 0.3, root: 0.35, flare: 0.08 } as const;

/**
 * The base plate as plates that fit the bed: a grid of holes, those along the left and the lower edge of every plate with their
 * names, joined by dovetails between the rows and columns. `columns` by `rows` holes in all; the frame is the plate's top with hole A1 at its origin. Holes are never nearer to an
 * edge than half of the pitch.
 */
export function basePlates(columns: number, rows: number, at: Frame, bench: BenchPlan, jig: JigPlan): SolidPart[] {
  const { pitch } = bench.base;
  const most = (side: number) => Math.max(1, Math.floor((side - TONGUE.length * pitch - 1) / pitch));
  const xs = spans(columns, most(jig.bed[0]));
  const ys = spans(rows, most(jig.bed[1]));
  const names = namesOf(columns, rows, pitch, bench.base.hole);
  return ys.flatMap((y, j) =>
    xs.map((x, i) => {
      const [from, to] = [holeName([x[0], y[0]]), holeName([x[1] - 1, y[1] - 1])];
      return printedPart(
        {
          name: `base-${letters(i).toLowerCase()}${j + 1}`,
          kind: 'bench-plate',
          title: `Base plate ${i + 1} by ${j + 1} of ${xs.length} by ${ys.length}, holes ${from} to ${to}; ${COMES_OFF}`,
          solid: tile(x, y, [columns, rows], names, bench, jig.fit),
          at,
          up: WORLD,
          chamfer: jig.chamfer,
        },
        jig.bed,
      );
    }),
  );
}

/** As few stretches of at most `most` as there must be, of lengths as equal as can be. */
function spans(count: number, most: number): Span[] {
  const n = Math.ceil(count / most);
  return Array.from({ length: n }, (_, i) => [Math.floor((count * i) / n), Math.floor((count * (i + 1)) / n)]);
}

type Names = (hole: Hole) => Solid[];

/** The name of a hole, engraved below it; letters and figures are built once. */
function namesOf(columns: number, rows: number, pitch: number, hole: number): Names {
  const height = Math.min(5, (pitch - hole) / 2 - 2);
  if (height < 3) return () => [];
  const cut = (text: string) => {
    const strokes = textStrokes(text, height);
    return { solid: solidOf(evaluate(textSolid(strokes, -ENGRAVED, 1))), width: strokes.width };
  };
  const names = Array.from({ length: columns }, (_, i) => cut(letters(i)));
  const figures = Array.from({ length: rows }, (_, j) => cut(String(j + 1)));
  const gap = 0.25 * height;
  return ([i, j]) => {
    const [letter, figure] = [names[i]!, figures[j]!];
    const whole = letter.width + gap + figure.width;
    const y = j * pitch - hole / 2 - 1 - height / 2;
    const x = i * pitch - whole / 2;
    const put = (s: Solid, dx: number): Solid => placed(s, { ...WORLD, origin: [x + dx, y, 0] });
    return [put(letter.solid, letter.width / 2), put(figure.solid, letter.width + gap + figure.width / 2)];
  };
}

function tile(x: Span, y: Span, [columns, rows]: Hole, names: Names, bench: BenchPlan, fit: number): Solid {
  const { pitch, hole, thickness } = bench.base;
  const [left, right] = [(x[0] - 0.5) * pitch, (x[1] - 0.5) * pitch];
  const [low, high] = [(y[0] - 0.5) * pitch, (y[1] - 0.5) * pitch];
  const plate = prism(
    [
      [left, low],
      [right, low],
      [right, high],
      [left, high],
    ],
    -thickness,
    0,
  );
  const tongue = (at: Vec2, way: Vec2, grown: number): Solid => dovetail(at, way, pitch, grown, thickness);
  const tongues = [
    ...(x[1] < columns ? between(y).map((r) => tongue([right, r * pitch], [1, 0], 0)) : []),
    ...(y[1] < rows ? between(x).map((c) => tongue([c * pitch, high], [0, 1], 0)) : []),
  ];
  const sockets = [
    ...(x[0] > 0 ? between(y).map((r) => tongue([left, r * pitch], [1, 0], fit)) : []),
    ...(y[0] > 0 ? between(x).map((c) => tongue([c * pitch, low], [0, 1], fit)) : []),
  ];
  const holes: Hole[] = [];
  for (let i = x[0]; i < x[1]; i++) for (let j = y[0]; j < y[1]; j++) holes.push([i, j]);
  const circle = circlePoints(hole / 2, undefined, 'chords-outside');
  return difference(
    union(plate, ...tongues),
    ...sockets,
    ...holes.map(([i, j]) =>
      prism(
        circle.map((p) => add2(p, [i * pitch, j * pitch])),
        -thickness - 1,
        1,
      ),
    ),
    ...holes.filter(([i, j]) => i === x[0] || j === y[0]).flatMap(names),
  );
}

/** Where tongues stand along an edge: halfway between two holes, near either end of it; none beside a single hole. */
function between([from, to]: Span): number[] {
  if (to - from < 2) return [];
  return to - from === 2 ? [from + 0.5] : [from + 0.5, to - 1.5];
}

/** A tongue at an edge, its way out of the plate; `grown` mm larger all round where it is the pocket. */
function dovetail(at: Vec2, way: Vec2, pitch: number, grown: number, thickness: number): Solid {
  const [length, root, flare] = [TONGUE.length * pitch, TONGUE.root * pitch, TONGUE.flare * pitch];
  const [near, far] = [root / 2 + grown, root / 2 + flare + grown];
  const over = grown > 0 ? 1 : 0;
  const corners: Vec2[] = [
    [-0.5, -near],
    [0, -near],
    [length + grown, -far],
    [length + grown, far],
    [0, near],
    [-0.5, near],
  ];
  const turned = corners.map(([u, v]): Vec2 => [at[0] + u * way[0] - v * way[1], at[1] + u * way[1] + v * way[0]]);
  return prism(turned, -thickness - over, over);
}
