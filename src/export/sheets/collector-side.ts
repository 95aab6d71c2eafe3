import { degrees } from '../../geometry/angle.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { along } from '../../geometry/vec3.js';
import type { InletCut } from '../../parts/collector/inlet-cut.js';
import type { CollectorGeometry } from '../../parts/collector/merge-geometry.js';
import { highest, lengthStops, lowest, shellEdges } from '../collector-outline.js';
import type { Doc } from '../paper/document.js';
import { linePath } from '../paper/draw-outline.js';
import { BODY, words } from '../paper/words.js';
import type { Stroke } from '../svg/overview-strokes.js';
import type { View } from '../svg/view.js';
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

function drawBody(doc: Doc, g: CollectorGeometry, placed: PlacedView): void {
  const page = ([z, x]: Vec2): Vec2 => placed.to([x, 0, z]);
  const { mergeLength: merge, totalLength: whole } = g;
  const closed = (of: 'outside' | 'bore'): Vec2[] => {
    const { up, down } = shellEdges(g, of);
    return [...up, ...[...down].reverse()].map(page);
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
  linePath(doc.lineWidth(EDGE), closed('outside'), true).fillAndStroke('white', 'black');
  doc.fillColor('black');
  for (const [z, x] of shellEdges(g, 'outside').up.slice(1, -1)) {
    doc
      .moveTo(...page([z, x]))
      .lineTo(...page([z, -x]))
      .stroke();
  }
  const inside = shellEdges(g, 'bore');
  doc.lineWidth(THIN).dash(1.4, { space: 1 });
  for (const edge of [inside.up, inside.down]) linePath(doc, edge.map(page)).stroke();
  doc.undash();
  doc.dash(4, { space: 1.2 });
  for (const c of g.cuts) linePath(doc, inletStroke(c, g, 1).points.map(placed.to)).stroke();
  doc
    .moveTo(...page([-4 / placed.scale, 0]))
    .lineTo(...page([whole + 4 / placed.scale, 0]))
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
  const stops = lengthStops(g);
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
