import { degrees } from '../../geometry/angle.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { along } from '../../geometry/vec3.js';
import type { CollectorGeometry, InletCut } from '../../parts/merge-geometry.js';
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

function drawBody(doc: Doc, g: CollectorGeometry, placed: PlacedView): void {
  const page = (z: number, x: number): Vec2 => placed.to([x, 0, z]);
  const { mergeLength: merge, totalLength: whole } = g;
  const cone = merge + g.coneLength;
  const shell = (r: number, outlet: number): Vec2[] => {
    const [up, down] = mergeEdges(g, r);
    return [
      page(merge, up),
      page(cone, outlet),
      page(whole, outlet),
      page(whole, -outlet),
      page(cone, -outlet),
      page(merge, down),
    ];
  };
  if (merge > 1e-6)
    drawStrokes(
      doc,
      g.cuts.map((c) => inletStroke(c, g, g.outside)),
      placed,
    );
  for (const { frame } of g.cuts) {
    linePath(doc.lineWidth(EDGE), ringPoints(frame.origin, frame.z, g.outside).map(placed.to), true).stroke();
  }
  linePath(
    doc.lineWidth(EDGE),
    shell(g.outside - g.coneWall < g.bore ? g.outside : g.bore + g.coneWall, g.outletOutside),
    true,
  ).fillAndStroke('white', 'black');
  doc.fillColor('black');
  doc
    .moveTo(...page(cone, g.outletOutside))
    .lineTo(...page(cone, -g.outletOutside))
    .stroke();
  const inside = shell(g.bore, g.outletBore);
  linePath(doc.lineWidth(THIN).dash(1.4, { space: 1 }), inside.slice(0, 3)).stroke();
  linePath(doc, inside.slice(3)).stroke().undash();
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
  const lengths = [g.mergeLength, g.coneLength, g.tail].filter((l) => l > 1e-6);
  const stops = [0, ...lengths.map((_, i) => lengths.slice(0, i + 1).reduce((a, b) => a + b, 0))];
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
  const od = lengthWords(2 * g.outletOutside, 1, units);
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
