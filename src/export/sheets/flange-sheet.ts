import { outlineBounds } from '../../geometry/outline/measure.js';
import { pointAlong, sidesOf } from '../../geometry/outline/sides.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { FlangePart } from '../../parts/flange/flange.js';
import { middleOf } from '../../parts/plates/engraving.js';
import { flatFlange } from '../../parts/plates/flat-flange.js';
import type { FlatPart } from '../../parts/plates/flat-part.js';
import type { Doc } from '../paper/document.js';
import { outlinePath } from '../paper/draw-outline.js';
import { crossAt } from '../paper/tile-pages.js';
import { BODY, KEY, words } from '../paper/words.js';
import { type Block, beside, heading, paragraph, space, stacked } from './block.js';
import { chainBelow, upright } from './dimension.js';
import { EDGE, THIN } from './header-picture.js';
import { drawLabels } from './labels.js';
import { scaleThatFits, scaleWords } from './scale.js';
import type { SheetInput } from './sheet-input.js';
import { fixed, lengthLines, lengthWords, type Units } from './sheet-numbers.js';
import { addSheet, roomOf, type SheetSet } from './sheet-set.js';
import { type Cell, type Column, table } from './table.js';

/** Most height the drawing takes, and room for dimensions and labels round it, mm. */
const TALLEST = 84;
const ROUND = { side: 12, top: 4, bottom: 17 };

/** The sheet of a flange: outline with its size, bolt holes and openings in numbers, material, remarks. */
export function flangeSheet(set: SheetSet, { plan }: SheetInput, flange: FlangePart): void {
  const { doc, width } = set;
  const { units } = plan;
  const part = flatFlange(flange, false);
  const left = 0.64 * width;
  const gap = 8;
  const blockOf = (title: string, rows: readonly Block[]): Block => stacked([heading(title), ...rows]);
  const first = [...paragraph(doc, stockLine(flange, units), width), drawing(part, width, units)];
  const room = roomOf(set) - first.reduce((sum, b) => sum + b.height, 0);
  const both = beside([
    { x: 0, block: blockOf('Holes', table(doc, HOLES, holeRows(part, units), left)) },
    { x: left + gap, block: blockOf('Openings', table(doc, OPENINGS, openingRows(part, units), width - left - gap)) },
  ]);
  const tables =
    units === 'mm' && both.height <= Math.max(room, 0.5 * roomOf(set))
      ? [both]
      : [
          heading('Holes'),
          ...table(doc, HOLES, holeRows(part, units), width),
          space(2),
          heading('Openings'),
          ...table(doc, OPENINGS, openingRows(part, units), width),
        ];
  addSheet(set, `Flange: ${flange.headName}`, [
    ...first,
    ...tables,
    space(2),
    ...[...part.notes, FILE].flatMap((line) => paragraph(doc, line, width)),
    ...CAUTION.flatMap((line) => paragraph(doc, line, width, '!')),
  ]);
}

const FILE =
  'Cut from the DXF of the same name, not from this picture. x and y count from the zero point of the head as the plan has it.';

const CAUTION = [
  'Plasma, laser and oxy-fuel cutting: burns, light, fume and fire; cut parts stay hot and have sharp edges. Clamp the flange to a block or the head while welding: it warps. Measure ports and bolts on the part itself before cutting.',
];

function stockLine(f: FlangePart, units: Units): string {
  const kerf = f.kerf.compensated
    ? `the file is moved by half a kerf of ${lengthWords(f.kerf.width, 2, units)}`
    : 'the file is the finished size';
  return `${lengthWords(f.thickness, 1, units)} ${f.material}, ${fixed(f.mass, 2)} kg; cuts ${lengthWords(f.cutLength, 0, units)} long; ${kerf}. Seen from the tubes.`;
}

function drawing(part: FlatPart, width: number, units: Units): Block {
  const { from, to } = outlineBounds(part.region.outer);
  const [w, h] = part.size;
  const k = scaleThatFits((s) => s * w + 2 * ROUND.side + 6 <= width && s * h + ROUND.top + ROUND.bottom <= TALLEST);
  const height = k * h + ROUND.top + ROUND.bottom;
  return {
    height,
    draw: (doc, [x, y]) => {
      const left = x + (width - k * w) / 2;
      const page = ([px, py]: Vec2): Vec2 => [left + k * (px - from[0]), y + ROUND.top + k * (to[1] - py)];
      doc
        .save()
        .translate(...page([0, 0]))
        .scale(k);
      drawPart(doc, part, k);
      doc.restore();
      const floor = y + ROUND.top + k * h;
      drawNumbers(doc, part, page, k, [x, y], [left + k * w + 6, floor + 3]);
      chainBelow(doc, [left, left + k * w], [lengthWords(w, 2, units)], floor + 5, floor + 1, [x, x + width]);
      const right = left + k * w;
      upright(doc, right + 9, floor, floor - k * h, lengthLines(h, 2, units)[0]!, [right + 1, right + 1]);
      words(doc, `scale ${scaleWords(k)}`, x + width / 2, floor + 14, BODY, 'center');
    },
  };
}

/** Its lines in the part's own coordinates: widths are divided by the scale so that they print as they should. */
function drawPart(doc: Doc, { region, blends }: FlatPart, k: number): void {
  doc.lineJoin('round').lineWidth(0.45 / k);
  for (const o of [region.outer, ...region.openings.map((one) => one.outline)]) outlinePath(doc, o).stroke();
  doc.lineWidth(EDGE / k);
  for (const o of [...region.slots, ...region.holes.map((hole) => hole.outline)]) outlinePath(doc, o).stroke();
  doc.lineWidth(THIN / k).strokeColor('#555555');
  for (const { outline } of blends)
    outlinePath(doc.dash(1.5 / k, { space: 1 / k }), outline)
      .stroke()
      .undash();
  for (const { at } of region.holes) crossAt(doc, [at[0], -at[1]], 3.5 / k);
  doc.strokeColor('black');
}

function drawNumbers(doc: Doc, { region }: FlatPart, page: (p: Vec2) => Vec2, k: number, from: Vec2, to: Vec2): void {
  for (const { outline, label } of region.openings) {
    const [x, y] = page(middleOf(outline));
    words(doc, label, x, y + 1.5, KEY, 'center', true);
  }
  const outlines = [...region.openings, ...region.holes].map((o) => o.outline);
  const blockers = outlines.map((outline) => {
    const box = outlineBounds(outline);
    return {
      at: page(middleOf(outline)),
      radius: (k * Math.max(box.to[0] - box.from[0], box.to[1] - box.from[1])) / 2,
    };
  });
  const rim = sidesOf(region.outer).flatMap((side) =>
    Array.from({ length: 12 }, (_, i) => ({ at: page(pointAlong(side, i / 12)), radius: 1.5 })),
  );
  const labels = region.holes.map(({ at }, i) => ({ at: page(at), line: String(i + 1), ring: false }));
  drawLabels(doc, labels, [...blockers, ...rim], from, to);
}

const NUMBERS = (heads: readonly string[]): Column[] => heads.map((head) => ({ head, align: 'right', key: true }));

const HOLES: readonly Column[] = [
  { head: 'no.', align: 'left', key: true },
  { head: 'what', align: 'left' },
  ...NUMBERS(['x', 'y', 'diameter']),
  { head: 'how', align: 'left' },
  { head: 'checked', align: 'center', fill: 'box' },
];

const holeRows = ({ region }: FlatPart, units: Units): Cell[][] =>
  region.holes.map((h, i) => [
    String(i + 1),
    h.place,
    lengthLines(h.at[0], 2, units),
    lengthLines(h.at[1], 2, units),
    h.diameter === null ? '-' : lengthLines(h.diameter, 2, units),
    `${h.words}${h.drill ? ', centre-marked and drilled' : ''}`,
    '',
  ]);

const OPENINGS: readonly Column[] = [
  { head: 'opening', align: 'left' },
  ...NUMBERS(['x', 'y', 'width', 'height']),
  { head: 'matched', align: 'center', fill: 'box' },
];

const openingRows = ({ region }: FlatPart, units: Units): Cell[][] =>
  region.openings.map(({ place, outline }) => {
    const { from, to } = outlineBounds(outline);
    const [x, y] = middleOf(outline);
    return [place, ...[x, y, to[0] - from[0], to[1] - from[1]].map((v) => lengthLines(v, 2, units)), ''];
  });
