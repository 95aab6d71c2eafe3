import { degrees } from '../../geometry/angle.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { along } from '../../geometry/vec3.js';
import type { InletCut } from '../../parts/inlet-cut.js';
import type { CollectorGeometry } from '../../parts/merge-geometry.js';
import type { Stroke } from '../overview-strokes.js';
import type { Doc } from '../paper/document.js';
import { linePath } from '../paper/draw-outline.js';
import { BODY, words } from '../paper/words.js';
import type { View } from '../view.js';
import type { Block } from './block.js';
import { chainBelow, upright } from './dimension.js';
import { drawStrokes, EDGE, type PlacedView, placedView, ringPoints, THIN } from './header-picture.js';
import { scaleThatFits, scaleWords } from './scale.js';
import { fixed, lengthWords, type Units } from './sheet-numbers.js';

/** The collector from the side, in its own frame: the gas to the right, inlet 1 up. */
const SIDE: View = { title: 'Side', right: [0, 0, 1], up: [1, 0, 0], towards: [0, 1, 0] };

/** Room for dimensions at the left and right, above and below, mm. */
const ROOM = { left: 12, right: 12, top: 9, bottom: 26 };

/** The collector from the side with its lengths and angle. */
export function collectorSide(g: CollectorGeometry, width: number, height: number, units: Units): Block {
  const high = highest(g, g.outside);
  const low = lowest(g, g.outside);
  const span: Vec2 = [g.totalLength, high - low];
  const k = scaleThatFits(
    (s) => s * span[0] + ROOM.left + ROOM.right <= width && s * span[1] + ROOM.top + ROOM.bottom <= height,
  );
  return {
    height,
    draw: (doc, [x, y]) => {
      const at: Vec2 = [
        x + ROOM.left + (width - ROOM.left - ROOM.right) / 2,
        y + ROOM.top + (height - ROOM.top - ROOM.bottom) / 2,
      ];
      const placed = placedView(SIDE, k, [g.totalLength / 2, (high + low) / 2], at);
      drawBody(doc, g, placed);
      drawSizes(doc, g, placed, units, [x, x + width]);
      words(
        doc,
        `From the side, inlet 1 up, gas to the right, ${scaleWords(k)}. Dashed: bores.`,
        x + width / 2,
        y + height - 2,
        BODY,
        'center',
      );
    },
  };
}

/** Height above the axis the inlets' skins reach at the inlet plane, or at the merge's end, mm. */
const edgesOf = ({ cuts }: CollectorGeometry, r: number): { up: number; down: number }[] =>
  cuts.map(({ frame: { origin, z } }) => {
    const tilt = Math.hypot(z[0], z[2]);
    return { up: origin[0] + (r * Math.abs(z[2])) / tilt, down: origin[0] - (r * Math.abs(z[2])) / tilt };
  });

const highest = (g: CollectorGeometry, r: number): number =>
  Math.max(g.outletOutside, ...edgesOf(g, r).map((e) => e.up), ...mergeEdges(g, r));

const lowest = (g: CollectorGeometry, r: number): number =>
  Math.min(-g.outletOutside, ...edgesOf(g, r).map((e) => e.down), ...mergeEdges(g, r));

/** Highest and lowest of the joined section at the merge's end. */
function mergeEdges(g: CollectorGeometry, r: number): [number, number] {
  const reach = r / Math.cos(g.mergeHalfAngle);
  const middles = g.cuts.map(({ frame: { origin } }) => {
    const l = Math.hypot(origin[0], origin[1]);
    return l < 1e-9 ? 0 : (g.mergeRadius * origin[0]) / l;
  });
  return [Math.max(...middles) + reach, Math.min(...middles) - reach];
}

/** Where the walls run behind the merge: place along the axis and radius, from the cone's end to the end of the tail, mm. */
function profileOf(g: CollectorGeometry, wall: 'bore' | 'outside'): Vec2[] {
  const { coneEnd, throat, totalLength } = g;
  const outlet = wall === 'bore' ? g.outletBore : g.outletOutside;
  return [
    [coneEnd.z, coneEnd[wall]],
    ...(throat === null
      ? []
      : ([
          [throat.to, throat[wall]],
          [throat.diffuserEnd, outlet],
        ] satisfies Vec2[])),
    [totalLength, outlet],
  ];
}

function drawBody(doc: Doc, g: CollectorGeometry, placed: PlacedView): void {
  const page = (z: number, x: number): Vec2 => placed.to([x, 0, z]);
  const { mergeLength: merge, totalLength: whole } = g;
  const [outside, bore] = [profileOf(g, 'outside'), profileOf(g, 'bore')];
  const upper = (r: number, profile: readonly Vec2[]): Vec2[] => [
    page(merge, mergeEdges(g, r)[0]),
    ...profile.map(([z, x]) => page(z, x)),
  ];
  const lower = (r: number, profile: readonly Vec2[]): Vec2[] => [
    ...[...profile].reverse().map(([z, x]) => page(z, -x)),
    page(merge, mergeEdges(g, r)[1]),
  ];
  if (merge > 1e-6)
    drawStrokes(
      doc,
      g.cuts.map((c) => inletStroke(c, g, g.outside)),
      placed,
    );
  for (const { frame } of g.cuts) {
    linePath(doc.lineWidth(EDGE), ringPoints(frame.origin, frame.z, g.outside).map(placed.to), true).stroke();
  }
  const wide = g.outside - g.coneWall < g.bore ? g.outside : g.bore + g.coneWall;
  linePath(doc.lineWidth(EDGE), [...upper(wide, outside), ...lower(wide, outside)], true).fillAndStroke(
    'white',
    'black',
  );
  doc.fillColor('black');
  for (const [z, x] of outside.slice(0, -1)) {
    doc
      .moveTo(...page(z, x))
      .lineTo(...page(z, -x))
      .stroke();
  }
  linePath(doc.lineWidth(THIN).dash(1.4, { space: 1 }), upper(g.bore, bore)).stroke();
  linePath(doc, lower(g.bore, bore)).stroke().undash();
  doc.dash(4, { space: 1.2 });
  for (const c of g.cuts) linePath(doc, inletStroke(c, g, 1).points.map(placed.to)).stroke();
  doc
    .moveTo(...page(-4 / placed.scale, 0))
    .lineTo(...page(whole + 4 / placed.scale, 0))
    .stroke()
    .undash();
}

const inletStroke = ({ frame }: InletCut, g: CollectorGeometry, radius: number): Stroke => ({
  points: [frame.origin, along(frame.origin, frame.z, g.mergeLength / Math.cos(g.mergeHalfAngle))],
  width: 2 * radius,
  colour: 'white',
});

function drawSizes(doc: Doc, g: CollectorGeometry, placed: PlacedView, units: Units, room: Vec2): void {
  const page = (z: number, x: number): Vec2 => placed.to([x, 0, z]);
  const floor = page(0, lowest(g, g.outside))[1];
  const ends = [0, g.mergeLength, ...profileOf(g, 'outside').map(([z]) => z)];
  const stops = ends.filter((z, i) => i === 0 || z - ends[i - 1]! > 1e-6);
  const lengths = stops.slice(1).map((z, i) => z - stops[i]!);
  // The whole length first: the words above it then cover its thin lines.
  chainBelow(
    doc,
    [page(0, 0)[0], page(g.totalLength, 0)[0]],
    [lengthWords(g.totalLength, 1, units)],
    floor + 14,
    floor + 1,
    room,
  );
  chainBelow(
    doc,
    stops.map((z) => page(z, 0)[0]),
    lengths.map((l) => lengthWords(l, 1, units)),
    floor + 6,
    floor + 1,
    room,
  );
  const right = page(g.totalLength, 0)[0];
  const od = `${fixed(2 * g.outletOutside, 1)} mm`;
  upright(doc, right + 8, page(0, -g.outletOutside)[1], page(0, g.outletOutside)[1], od, [right + 1, right + 1]);
  if (g.mergeHalfAngle > 1e-6) drawAngle(doc, g, placed);
}

/** The merge half-angle at inlet 1, between its axis and a line along the collector's. */
function drawAngle(doc: Doc, g: CollectorGeometry, placed: PlacedView): void {
  const [x, y] = placed.to(g.cuts[0]!.frame.origin);
  const r = Math.min(22, 0.8 * g.mergeLength * placed.scale);
  doc
    .lineWidth(THIN)
    .moveTo(x, y)
    .lineTo(x + r + 3, y)
    .stroke();
  const arc = Array.from({ length: 13 }, (_, i): Vec2 => {
    const a = (g.mergeHalfAngle * i) / 12;
    return [x + r * Math.cos(a), y + r * Math.sin(a)];
  });
  linePath(doc, arc).stroke();
  const top = placed.to([highest(g, g.outside), 0, 0])[1];
  doc
    .moveTo(...arc[6]!)
    .lineTo(x + r + 4, top - 2.2)
    .stroke();
  words(doc, `${fixed(degrees(g.mergeHalfAngle), 2)} deg to the axis`, x + r + 4, top - 3, BODY);
}
