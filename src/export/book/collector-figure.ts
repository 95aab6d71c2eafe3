import { degrees, wrapTwoPi } from '../../geometry/angle.js';
import { frameFrom } from '../../geometry/frame.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { dot, sub, type Vec3 } from '../../geometry/vec3.js';
import { lengthWords } from '../../params/faults/wording.js';
import type { LengthUnit } from '../../params/units.js';
import type { Collector } from '../../parts/collector/collector.js';
import type { InletCut } from '../../parts/collector/inlet-cut.js';
import type { CollectorGeometry } from '../../parts/collector/merge-geometry.js';
import { endView, highest, lengthStops, lowest, shellEdges } from '../collector-outline.js';
import { type Html, html } from './html.js';

const WIDTH = 440;

/** Room round the side view for its sizes, and about what a letter of them takes. */
const ROOM = { left: 14, right: 96, top: 44, bottom: 84 } as const;
const LETTER = 7.4;

/** Most a view's body is high. */
const TALLEST = 250;

const n = (x: number): string => String(Math.round(x * 100) / 100);
const pathOf = (points: readonly Vec2[], closed = false): string =>
  `${points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${n(x)} ${n(y)}`).join('')}${closed ? 'Z' : ''}`;

/** A collector drawn twice: from the side with its sizes, and its inlets as the gas meets them. `tubes` name what arrives, in order. */
export const collectorFigure = (collector: Collector, tubes: readonly string[], units: LengthUnit): Html =>
  html`<figure class="plots">${sideView(collector, units)}${inletView(collector, tubes, units)}</figure>
`;

function sideView({ plan, geometry: g }: Collector, units: LengthUnit): Html {
  const [high, low] = [highest(g, g.outside), lowest(g, g.outside)];
  const k = Math.min((WIDTH - ROOM.left - ROOM.right) / g.totalLength, TALLEST / (high - low));
  const at = ([z, x]: Vec2): Vec2 => [ROOM.left + z * k, ROOM.top + (high - x) * k];
  const floor = at([0, low])[1];
  const height = floor + ROOM.bottom;
  const edges = shellEdges(g, 'outside');
  const bores = shellEdges(g, 'bore');
  const seams = edges.up.slice(1, -1).map(([z, x]) => pathOf([at([z, x]), at([z, -x])]));
  const angle =
    g.mergeHalfAngle > 1e-6
      ? html`<text class="axis-words" x="${n(at([0, 0])[0])}" y="36">inlets lean ${degrees(g.mergeHalfAngle).toFixed(2)}° to the axis</text>`
      : null;
  return html`<svg class="plot" viewBox="0 0 ${WIDTH} ${n(height)}" width="${WIDTH}" height="${n(height)}" role="img" aria-label="Collector ${plan.name} from the side with its lengths and outlet; the same numbers stand below"><text class="plot-title" x="0" y="16">From the side, gas to the right</text>${angle}${inletTubes(g, at, k)}<path class="body" d="${pathOf([...edges.up, ...[...edges.down].reverse()].map(at), true)}"/><path class="edge" d="${seams.join('')}"/><path class="bore" d="${pathOf(bores.up.map(at))}${pathOf(bores.down.map(at))}"/><path class="centre" d="${pathOf([at([-10 / k, 0]), at([g.totalLength + 10 / k, 0])])}"/>${sizes(g, at, floor, units)}</svg>
`;
}

/** The inlets' tubes from the far side to the near one, each a strip with its open end. */
function inletTubes(g: CollectorGeometry, at: (p: Vec2) => Vec2, k: number): Html[] {
  if (g.mergeLength < 1e-6) return [];
  const nearLast = [...g.cuts].sort((a, b) => a.frame.origin[1] - b.frame.origin[1]);
  return nearLast.map(({ frame: { origin, z } }) => {
    const run = g.mergeLength / z[2];
    const end: Vec3 = [origin[0] + z[0] * run, origin[1] + z[1] * run, origin[2] + z[2] * run];
    const [from, to] = [at([origin[2], origin[0]]), at([end[2], end[0]])];
    const flat = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const side: Vec2 = [(-(to[1] - from[1]) / flat) * g.outside * k, ((to[0] - from[0]) / flat) * g.outside * k];
    const strip: Vec2[] = [
      [from[0] + side[0], from[1] + side[1]],
      [to[0] + side[0], to[1] + side[1]],
      [to[0] - side[0], to[1] - side[1]],
      [from[0] - side[0], from[1] - side[1]],
    ];
    const aside = Math.asin(Math.min(1, Math.abs(z[1])));
    const turn = degrees(Math.atan2(to[1] - from[1], to[0] - from[0]));
    const mouth = html`<ellipse class="body" cx="${n(from[0])}" cy="${n(from[1])}" rx="${n(Math.sin(aside) * g.outside * k)}" ry="${n(g.outside * k)}" transform="rotate(${n(turn)} ${n(from[0])} ${n(from[1])})"/>`;
    // two tubes side by side meet in the plane between them; of more, the near one lies over the far one
    const seen =
      g.inlets === 2 && Math.abs(origin[0]) > 1e-9 ? upTo(strip, at([0, 0])[1], Math.sign(-origin[0])) : strip;
    return html`<path class="body" d="${pathOf(seen, true)}"/>${mouth}`;
  });
}

/** The part of a polygon on one side of a level line: of the greater y for `side` 1, of the less for -1. */
function upTo(points: readonly Vec2[], y: number, side: number): Vec2[] {
  const over = (p: Vec2): number => (p[1] - y) * side;
  return points.flatMap((p, i): Vec2[] => {
    const next = points[(i + 1) % points.length]!;
    const [a, b] = [over(p), over(next)];
    const met: Vec2[] = a * b < 0 ? [[p[0] + ((next[0] - p[0]) * a) / (a - b), y]] : [];
    return a >= 0 ? [p, ...met] : met;
  });
}

/** Lengths of the stretches below, the whole below them, the outlet's diameter at the right. */
function sizes(g: CollectorGeometry, at: (p: Vec2) => Vec2, floor: number, units: LengthUnit): Html {
  const stops = lengthStops(g);
  const row = floor + 18;
  const spans = stops.slice(1).map((z, i) => {
    const [a, b] = [at([stops[i]!, 0])[0], at([z, 0])[0]];
    const label = lengthWords(z - stops[i]!, units, 1);
    // what is too short for its number has it a line lower, before the outlet's end
    const fits = label.length * LETTER < b - a - 4;
    const place = fits ? { x: (a + b) / 2, y: row + 15, style: 'middle' } : { x: b, y: row + 30, style: 'end' };
    return html`${sizeLine(a, b, row)}<text class="axis-words ${place.style}" x="${n(place.x)}" y="${n(place.y)}">${label}</text>`;
  });
  const [start, end] = [at([0, 0])[0], at([g.totalLength, 0])[0]];
  const whole = row + 44;
  const ends = stops.map((z) => `M${n(at([z, 0])[0])} ${n(floor + 4)}V${n(row + 5)}`).join('');
  const right = end + 14;
  const [top, bottom] = [at([0, g.outletOutside])[1], at([0, -g.outletOutside])[1]];
  return html`<path class="size" d="${ends}"/>${spans}${sizeLine(start, end, whole)}<text class="axis-words middle" x="${n((start + end) / 2)}" y="${n(whole + 15)}">${lengthWords(g.totalLength, units, 1)}</text><path class="size" d="M${n(end + 4)} ${n(top)}H${n(right + 5)}M${n(end + 4)} ${n(bottom)}H${n(right + 5)}M${n(right)} ${n(top)}V${n(bottom)}"/><text class="axis-words" x="${n(right + 6)}" y="${n((top + bottom) / 2 - 6)}">⌀ ${lengthWords(2 * g.outletOutside, units, 1)}</text>`;
}

/** A level size line with a stroke across at each end. */
const sizeLine = (a: number, b: number, y: number): Html =>
  html`<path class="size" d="M${n(a)} ${n(y)}H${n(b)}M${n(a - 3)} ${n(y + 3)}l6 -6M${n(b - 3)} ${n(y + 3)}l6 -6"/>`;

/** The inlets seen along the gas, numbered, with what arrives and how far inlet 1 is turned from straight up. */
function inletView(c: Collector, tubes: readonly string[], units: LengthUnit): Html {
  const { geometry: g, plan } = c;
  const { view, up } = endView(c);
  const reach = g.ringRadius + g.outside;
  const k = Math.min(TALLEST / (2 * reach), (WIDTH - 120) / (2 * reach));
  const centre: Vec2 = [WIDTH / 2, ROOM.top + reach * k];
  const height = centre[1] + reach * k + 34;
  const onView = (cut: InletCut): Vec2 => {
    const off = sub(frameFrom(plan.frame, cut.frame).origin, plan.frame.origin);
    return [dot(view.right, off), dot(view.up, off)];
  };
  const inlets = g.cuts.map((cut, i) => {
    const [x, y] = onView(cut);
    const [px, py] = [centre[0] + x * k, centre[1] - y * k];
    return html`<circle class="body" cx="${n(px)}" cy="${n(py)}" r="${n(g.outside * k)}"/><circle class="bore" cx="${n(px)}" cy="${n(py)}" r="${n(g.bore * k)}"/><text class="plot-title middle" x="${n(px)}" y="${n(py)}">${i + 1}</text><text class="axis-words middle" x="${n(px)}" y="${n(py + 16)}">${tubes[i] ?? ''}</text>`;
  });
  const ring = html`<circle class="centre" cx="${n(centre[0])}" cy="${n(centre[1])}" r="${n(g.ringRadius * k)}"/>`;
  const arrow = html`<path class="edge" d="M24 ${ROOM.top + 40}V${ROOM.top + 12}m-5 8l5 -8l5 8"/><text class="axis-words" x="8" y="${ROOM.top + 2}">${up}</text>`;
  const told =
    g.inlets === 1
      ? null
      : html`<text class="axis-words middle" x="${centre[0]}" y="${n(height - 8)}">Inlet 1 stands ${clocked(onView(g.cuts[0]!))} from the arrow; ring ⌀ ${lengthWords(2 * g.ringRadius, units, 1)}</text>`;
  return html`<svg class="plot" viewBox="0 0 ${WIDTH} ${n(height)}" width="${WIDTH}" height="${n(height)}" role="img" aria-label="Inlets of collector ${plan.name} seen along the gas"><text class="plot-title" x="0" y="16">Inlets, seen along the gas</text>${arrow}${ring}${inlets}${told}</svg>
`;
}

/** How far a place is turned from straight up, the shorter way round. */
function clocked([x, y]: Vec2): string {
  const turn = degrees(wrapTwoPi(Math.atan2(x, y)));
  const tenths = Math.round(10 * turn) % 3600;
  if (tenths === 0) return '0.0°';
  return tenths <= 1800
    ? `${(tenths / 10).toFixed(1)}° clockwise`
    : `${((3600 - tenths) / 10).toFixed(1)}° anticlockwise`;
}
