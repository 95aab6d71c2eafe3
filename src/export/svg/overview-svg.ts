import { headingAt } from '../../geometry/path/path.js';
import { distance2, lerp2, type Vec2 } from '../../geometry/vec2.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import type { CollectorGeometry } from '../../parts/collector/merge-geometry.js';
import type { FlangePart } from '../../parts/flange/flange.js';
import type { RoutedPrimary, RoutedSecondary } from '../../routing/routed.js';
import { type OutputFile, textFile } from '../output-file.js';
import { xmlText } from '../xml-text.js';
import { flangeHull } from './flange-hull.js';
import { type EdgeLine, edgeLines, type FreeShape, freeShapes } from './overview-space.js';
import { collectorStrokes, type Stroke, tubeStrokes } from './overview-strokes.js';
import { nearness, onPage, VIEWS, type View } from './view.js';

/** Tube colours that colour-blind readers tell apart (Okabe and Ito, 2008); every tube is numbered too. */
const COLOURS = ['#e69f00', '#56b4e9', '#009e73', '#f0e442', '#0072b2', '#d55e00', '#cc79a7', '#999999'] as const;
/** Those of the secondaries (Tol's light scheme, 2021). */
const SECONDARY_COLOURS = ['#ffaabb', '#aaaa00', '#ee8866', '#44bb99'] as const;
const COLLECTOR = '#c9ced6';
const EDGE = '#1d2733';
const GAP = 60;
const MARGIN = 40;
const HEADING = 96;

/** What the picture shows. */
export interface OverviewScene {
  readonly plan: Plan;
  readonly primaries: readonly RoutedPrimary[];
  readonly secondaries: readonly RoutedSecondary[];
  readonly flanges: readonly FlangePart[];
  readonly collectors: readonly CollectorGeometry[];
  /** One line under the title. */
  readonly verdict: string;
}

/** The whole header in three views at one scale, as a drawing to look at: overview.svg. */
export function overviewSvg(scene: OverviewScene): OutputFile {
  const drawn = VIEWS.map((view) => drawView(scene, view));
  const width = drawn.reduce((sum, d) => sum + d.size[0] + GAP, 2 * MARGIN - GAP);
  const height = Math.max(...drawn.map((d) => d.size[1])) + HEADING + 2 * MARGIN + 30;
  let x = MARGIN;
  const groups = drawn.map((d) => {
    const at = x;
    x += d.size[0] + GAP;
    return `<g transform="translate(${n(at)} ${n(HEADING + MARGIN)})">${d.body}</g>`;
  });
  const text = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${n(width)} ${n(height)}" width="${n(width)}" height="${n(height)}" font-family="Helvetica, Arial, sans-serif" fill="${EDGE}">`,
    `<rect width="100%" height="100%" fill="#fff"/>`,
    `<text x="${MARGIN}" y="52" font-size="30" font-weight="bold">${xmlText(scene.plan.name)}</text>`,
    `<text x="${MARGIN}" y="84" font-size="20">${xmlText(scene.verdict)}</text>`,
    ...groups,
    scaleBar(height),
    '</svg>',
    '',
  ].join('\n');
  return textFile('overview.svg', 'picture', text);
}

const n = (x: number): string => String(Math.round(x * 10) / 10 || 0);

const scaleBar = (height: number): string =>
  `<g transform="translate(${MARGIN} ${n(height - 24)})"><path d="M0 -8V0H100V-8" fill="none" stroke="${EDGE}" stroke-width="2"/><text x="108" y="2" font-size="16">100 mm</text></g>`;

function drawView(scene: OverviewScene, view: View): { readonly body: string; readonly size: Vec2 } {
  const { plan, primaries, secondaries } = scene;
  const strokes = [
    ...plan.collectors.flatMap((c, i) => collectorStrokes(c, scene.collectors[i]!, view, COLLECTOR)),
    ...primaries.flatMap((p, i) => tubeStrokes(p, COLOURS[i % COLOURS.length]!)),
    ...secondaries.flatMap((s, i) => tubeStrokes(s, SECONDARY_COLOURS[i % SECONDARY_COLOURS.length]!)),
  ].sort((a, b) => depth(view, a) - depth(view, b));
  const shapes = freeShapes(plan, view);
  const flanges = scene.flanges.map((f) => flangeHull(plan, f, view));
  const drawn = boxOf([
    ...strokes.flatMap((s) => s.points.flatMap((p) => around(onPage(view, p), s.width / 2))),
    ...shapes.filter((s) => s.kind === 'solid').flatMap((s) => s.hull),
    ...flanges.flat(),
  ]);
  const { low, high } = withSurroundings(drawn, shapes);
  const size: Vec2 = [high[0] - low[0], high[1] - low[1]];
  const to = (p: Vec2): Vec2 => [p[0] - low[0], high[1] - p[1]];
  const clip = `view-${VIEWS.indexOf(view)}`;
  const body = [
    `<clipPath id="${clip}"><rect width="${n(size[0])}" height="${n(size[1])}"/></clipPath>`,
    `<text y="-14" font-size="18">${xmlText(view.title)}</text>`,
    `<g clip-path="url(#${clip})">`,
    ...shapes.map((s) => `<path d="${closed(s.hull.map(to))}" ${LOOKS[s.kind]}/>`),
    '</g>',
    ...flanges.map((hull) => `<path d="${closed(hull.map(to))}" fill="#e8ebef" stroke="${EDGE}" stroke-width="1.2"/>`),
    ...edgeLines(plan, view).flatMap((l) => edgeLineSvg(l, low, high, to)),
    ...strokes.map((s) => strokeSvg(view, to, s)),
    ...shapes.flatMap((s) =>
      s.name === null ? [] : [label(to(within(middle(s.hull), low, high)), s.name, LABELS[s.kind], 14)],
    ),
    ...secondaries.map((s) => label(to(onPage(view, headingAt(s.path, s.length / 2).point)), s.id, EDGE, 16)),
    ...numbersOf(primaries, (p) => to(onPage(view, p))).map(({ at, words }) => label(at, words, EDGE, 22)),
  ];
  return { body: body.join('\n'), size };
}

/** Numbers nearer to each other than this, mm, could not be read. */
const NUMBERS_APART = 20;

/** Most numbers that one label tells one by one. */
const MOST_TOLD = 4;

/** The primaries' numbers at their ports; those that a view lays on each other stand in one label. */
function numbersOf(
  primaries: readonly RoutedPrimary[],
  place: (p: Vec3) => Vec2,
): { readonly at: Vec2; readonly words: string }[] {
  const groups: { readonly at: Vec2; readonly cylinders: number[] }[] = [];
  for (const { cylinder, path } of primaries) {
    const at = place(path.segments[0]!.from);
    const near = groups.find((g) => distance2(g.at, at) < NUMBERS_APART);
    if (near) near.cylinders.push(cylinder);
    else groups.push({ at, cylinders: [cylinder] });
  }
  return groups.map(({ at, cylinders }) => {
    const all = [...cylinders].sort((a, b) => a - b);
    return { at, words: all.length > MOST_TOLD ? `${all[0]} \u2026 ${all.at(-1)}` : all.join(' ') };
  });
}

interface Box {
  readonly low: Vec2;
  readonly high: Vec2;
}

const boxOf = (points: readonly Vec2[]): Box => ({
  low: [Math.min(...points.map((p) => p[0])), Math.min(...points.map((p) => p[1]))],
  high: [Math.max(...points.map((p) => p[0])), Math.max(...points.map((p) => p[1]))],
});

/** How much of a scan or of a tool's room is shown beyond the header, mm: a whole engine bay would leave the header small. */
const BEYOND = 120;

function withSurroundings({ low, high }: Box, shapes: readonly FreeShape[]): Box {
  const [least, most]: [Vec2, Vec2] = [
    [low[0] - BEYOND, low[1] - BEYOND],
    [high[0] + BEYOND, high[1] + BEYOND],
  ];
  const shown = shapes.flatMap((s) => s.hull.map((p) => within(p, least, most)));
  return boxOf([low, high, ...shown]);
}

const within = (p: Vec2, low: Vec2, high: Vec2): Vec2 => [
  Math.min(high[0], Math.max(low[0], p[0])),
  Math.min(high[1], Math.max(low[1], p[1])),
];

const LOOKS: Readonly<Record<FreeShape['kind'], string>> = {
  solid: 'fill="#b23a48" fill-opacity="0.08" stroke="#b23a48" stroke-width="1.5" stroke-dasharray="8 5"',
  scan: 'fill="#5b6b7d" fill-opacity="0.05" stroke="#5b6b7d" stroke-width="1"',
  room: 'fill="none" stroke="#7a8696" stroke-width="1" stroke-dasharray="1 3"',
};

const LABELS: Readonly<Record<FreeShape['kind'], string>> = { solid: '#8c1d2c', scan: '#46525f', room: '#46525f' };

/** A plane as a thin dashed line right across the view, with its name; nothing where it passes outside. */
function edgeLineSvg({ name, point, direction }: EdgeLine, low: Vec2, high: Vec2, to: (p: Vec2) => Vec2): string[] {
  let [from, until] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const k of [0, 1] as const) {
    if (Math.abs(direction[k]) < 1e-9) {
      if (point[k] < low[k] || point[k] > high[k]) return [];
      continue;
    }
    const [a, b] = [(low[k] - point[k]) / direction[k], (high[k] - point[k]) / direction[k]];
    from = Math.max(from, Math.min(a, b));
    until = Math.min(until, Math.max(a, b));
  }
  if (!(until > from)) return [];
  const at = (t: number): Vec2 => to([point[0] + t * direction[0], point[1] + t * direction[1]]);
  const [a, b] = [at(from), at(until)];
  const left = a[0] <= b[0] ? a : b;
  return [
    `<path d="M${n(a[0])} ${n(a[1])}L${n(b[0])} ${n(b[1])}" fill="none" stroke="#8c1d2c" stroke-width="1" stroke-dasharray="12 6"/>`,
    `<text x="${n(left[0] + 6)}" y="${n(left[1] - 5)}" font-size="14" fill="#8c1d2c">${xmlText(name)}</text>`,
  ];
}

const depth = (view: View, s: Stroke): number =>
  s.points.reduce((sum, p) => sum + nearness(view, p), 0) / s.points.length;

const around = (p: Vec2, r: number): Vec2[] => [
  [p[0] - r, p[1] - r],
  [p[0] + r, p[1] + r],
];

/** How far a stroke's colour runs on beyond its dark edges, so that neighbours run into each other without a line between. */
const OVERLAP = 1.2;

/** Width of the dark edges. */
const EDGE_WIDTH = 1.6;

/** A run of tube: its dark edges first, then its colour. Seen end-on it is a disc. */
function strokeSvg(view: View, to: (p: Vec2) => Vec2, s: Stroke): string {
  const points = s.points.map((p) => to(onPage(view, p)));
  const a = points[0]!;
  const b = points[points.length - 1]!;
  if (distance2(a, b) < 0.05) {
    return `<circle cx="${n(a[0])}" cy="${n(a[1])}" r="${n(s.width / 2)}" fill="${s.colour}" stroke="${EDGE}" stroke-width="${EDGE_WIDTH}"/>`;
  }
  const last = beyond(points[points.length - 2]!, b, s.endsHere ? -EDGE_WIDTH : OVERLAP);
  const skin = [beyond(points[1]!, a, OVERLAP), ...points.slice(1, -1), last];
  const stroke = (line: readonly Vec2[], colour: string, width: number): string =>
    `<path d="M${line.map((p) => `${n(p[0])} ${n(p[1])}`).join('L')}" fill="none" stroke="${colour}" stroke-width="${n(width)}" stroke-linejoin="round"/>`;
  return stroke(points, EDGE, s.width) + stroke(skin, s.colour, s.width - 2 * EDGE_WIDTH);
}

/** A point `by` beyond `end` on the line from `before`. */
function beyond(before: Vec2, end: Vec2, by: number): Vec2 {
  const l = distance2(before, end);
  return l < 0.3 ? end : lerp2(before, end, 1 + by / l);
}

const closed = (points: readonly Vec2[]): string => `M${points.map((p) => `${n(p[0])} ${n(p[1])}`).join('L')}Z`;

const middle = (points: readonly Vec2[]): Vec2 => [
  points.reduce((s, p) => s + p[0], 0) / points.length,
  points.reduce((s, p) => s + p[1], 0) / points.length,
];

const label = (at: Vec2, text: string, colour: string, size: number): string =>
  `<text x="${n(at[0])}" y="${n(at[1] + size / 3)}" font-size="${size}" font-weight="bold" text-anchor="middle" fill="${colour}" stroke="#fff" stroke-width="4" paint-order="stroke">${xmlText(text)}</text>`;
