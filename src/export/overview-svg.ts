import { frameAlong, pointFrom } from '../geometry/frame.js';
import { flattenOutline } from '../geometry/outline-flatten.js';
import { distance2, lerp2, type Vec2 } from '../geometry/vec2.js';
import { distance, sub, unit, type Vec3 } from '../geometry/vec3.js';
import type { KeepOut, Plan } from '../params/plan.js';
import type { FlangePart } from '../parts/flange.js';
import type { CollectorGeometry } from '../parts/merge-geometry.js';
import type { RoutedPrimary, RoutedSecondary } from '../routing/routed.js';
import type { OutputFile } from './output-file.js';
import { collectorStrokes, pathStrokes, type Stroke } from './overview-strokes.js';
import { nearness, onPage, pageHull, VIEWS, type View } from './view.js';
import { xmlText } from './xml-text.js';

/** Tube colours that colour-blind readers tell apart (Okabe and Ito, 2008); every tube is numbered too. */
const COLOURS = ['#e69f00', '#56b4e9', '#009e73', '#f0e442', '#0072b2', '#d55e00', '#cc79a7', '#999999'] as const;
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
  return { path: 'overview.svg', kind: 'picture', bytes: new TextEncoder().encode(text) };
}

const n = (x: number): string => String(Math.round(x * 10) / 10 || 0);

const scaleBar = (height: number): string =>
  `<g transform="translate(${MARGIN} ${n(height - 24)})"><path d="M0 -8V0H100V-8" fill="none" stroke="${EDGE}" stroke-width="2"/><text x="108" y="2" font-size="16">100 mm</text></g>`;

function drawView(scene: OverviewScene, view: View): { readonly body: string; readonly size: Vec2 } {
  const { plan, primaries } = scene;
  const od = plan.tube.od;
  const strokes = [
    ...plan.collectors.flatMap((c, i) => collectorStrokes(c, scene.collectors[i]!, COLLECTOR)),
    ...primaries.flatMap((p, i) => pathStrokes(p.path, od, COLOURS[i % COLOURS.length]!)),
  ].sort((a, b) => depth(view, a) - depth(view, b));
  const keepOuts = plan.keepOuts.flatMap((k) => {
    const corners = cornersOf(k);
    return corners.length > 0 ? [{ name: k.name, hull: pageHull(corners.map((p) => onPage(view, p))) }] : [];
  });
  const flanges = scene.flanges.map((f) => flangeHulls(plan, f, view));
  const reach = [
    ...strokes.flatMap((s) => s.points.flatMap((p) => around(onPage(view, p), s.width / 2))),
    ...keepOuts.flatMap((k) => k.hull),
    ...flanges.flat().flat(),
  ];
  const low: Vec2 = [Math.min(...reach.map((p) => p[0])), Math.min(...reach.map((p) => p[1]))];
  const high: Vec2 = [Math.max(...reach.map((p) => p[0])), Math.max(...reach.map((p) => p[1]))];
  const to = (p: Vec2): Vec2 => [p[0] - low[0], high[1] - p[1]];
  const body = [
    `<text y="-14" font-size="18">${xmlText(view.title)}</text>`,
    ...keepOuts.map(
      (k) =>
        `<path d="${closed(k.hull.map(to))}" fill="#b23a48" fill-opacity="0.08" stroke="#b23a48" stroke-width="1.5" stroke-dasharray="8 5"/>`,
    ),
    ...flanges
      .flat()
      .map((hull) => `<path d="${closed(hull.map(to))}" fill="#e8ebef" stroke="${EDGE}" stroke-width="1.2"/>`),
    ...strokes.map((s) => strokeSvg(view, to, s)),
    ...keepOuts.map((k) => label(to(middle(k.hull)), k.name, '#8c1d2c', 14)),
    ...primaries.map((p) => label(to(onPage(view, p.path.segments[0]!.from)), String(p.cylinder), EDGE, 22)),
  ];
  return { body: body.join('\n'), size: [high[0] - low[0], high[1] - low[1]] };
}

const depth = (view: View, s: Stroke): number =>
  s.points.reduce((sum, p) => sum + nearness(view, p), 0) / s.points.length;

const around = (p: Vec2, r: number): Vec2[] => [
  [p[0] - r, p[1] - r],
  [p[0] + r, p[1] + r],
];

/** How far a stroke's colour runs on beyond its dark edges, so that neighbours run into each other without a line between. */
const OVERLAP = 1.2;

/** A run of tube: its dark edges first, then its colour. Seen end-on it is a disc. */
function strokeSvg(view: View, to: (p: Vec2) => Vec2, s: Stroke): string {
  const points = s.points.map((p) => to(onPage(view, p)));
  const a = points[0]!;
  const b = points[points.length - 1]!;
  if (distance2(a, b) < 0.05) {
    return `<circle cx="${n(a[0])}" cy="${n(a[1])}" r="${n(s.width / 2)}" fill="${s.colour}" stroke="${EDGE}" stroke-width="1.6"/>`;
  }
  const skin = [beyond(points[1]!, a), ...points.slice(1, -1), beyond(points[points.length - 2]!, b)];
  const stroke = (line: readonly Vec2[], colour: string, width: number): string =>
    `<path d="M${line.map((p) => `${n(p[0])} ${n(p[1])}`).join('L')}" fill="none" stroke="${colour}" stroke-width="${n(width)}" stroke-linejoin="round"/>`;
  return stroke(points, EDGE, s.width) + stroke(skin, s.colour, s.width - 3.2);
}

/** A point a little beyond `end` on the line from `before`. */
function beyond(before: Vec2, end: Vec2): Vec2 {
  const l = distance2(before, end);
  return l < 0.3 ? end : lerp2(before, end, 1 + OVERLAP / l);
}

const closed = (points: readonly Vec2[]): string => `M${points.map((p) => `${n(p[0])} ${n(p[1])}`).join('L')}Z`;

const middle = (points: readonly Vec2[]): Vec2 => [
  points.reduce((s, p) => s + p[0], 0) / points.length,
  points.reduce((s, p) => s + p[1], 0) / points.length,
];

const label = (at: Vec2, text: string, colour: string, size: number): string =>
  `<text x="${n(at[0])}" y="${n(at[1] + size / 3)}" font-size="${size}" font-weight="bold" text-anchor="middle" fill="${colour}" stroke="#fff" stroke-width="4" paint-order="stroke">${xmlText(text)}</text>`;

function flangeHulls(plan: Plan, flange: FlangePart, view: View): Vec2[][] {
  const { frame } = plan.heads[flange.head]!;
  const outer = flattenOutline(flange.region.outer, 0.5);
  const face = (z: number): Vec2[] => outer.map(([x, y]) => onPage(view, pointFrom(frame, [x, y, z])));
  const facing = Math.abs(view.towards[0] * frame.z[0] + view.towards[1] * frame.z[1] + view.towards[2] * frame.z[2]);
  return [facing > 0.5 ? face(flange.thickness) : pageHull([...face(0), ...face(flange.thickness)])];
}

/** Points whose hull is the outline of kept-out space; none for what has no end or too many corners. */
function cornersOf(k: KeepOut): Vec3[] {
  if (k.kind === 'half-space' || k.kind === 'mesh') return [];
  if (k.kind === 'box') {
    const pick = (i: number): Vec3 => [
      i & 1 ? k.to[0] : k.from[0],
      i & 2 ? k.to[1] : k.from[1],
      i & 4 ? k.to[2] : k.from[2],
    ];
    return Array.from({ length: 8 }, (_, i) => pick(i));
  }
  const frame = frameAlong(k.from, unit(sub(k.to, k.from)));
  const l = distance(k.from, k.to);
  return Array.from({ length: 48 }, (_, i) => {
    const a = (2 * Math.PI * i) / 24;
    return pointFrom(frame, [(k.diameter / 2) * Math.cos(a), (k.diameter / 2) * Math.sin(a), i < 24 ? 0 : l]);
  });
}
