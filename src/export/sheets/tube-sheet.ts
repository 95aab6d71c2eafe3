import { sizeWords } from '../../params/faults/wording.js';
import type { TubeCuts } from '../../parts/tube/tube-cuts.js';
import type { RoutedTube } from '../../routing/routed.js';
import { type Block, beside, heading, paragraph, space, stacked } from './block.js';
import { clockDials, clockedJoints, DIAL, dialWords } from './clock-dial.js';
import type { SheetInput } from './sheet-input.js';
import { fixed, lengthWords, type Units } from './sheet-numbers.js';
import { addSheet, roomOf, type SheetSet } from './sheet-set.js';
import { tubeStrip } from './tube-strip.js';
import { jointTable, pieceTable, tubeSums } from './tube-tables.js';
import { tubeViews } from './tube-views.js';

/** Least height of the views that share a page with the strip, mm. */
const LEAST_VIEWS = 60;

/** Most dials that stand beside the views: three rows of three. */
const BESIDE = 9;

/** The sheets of one tube: drawing with dials and developed strip; pieces and joints. */
export function tubeSheet(set: SheetSet, { plan }: SheetInput, tube: RoutedTube, cuts: TubeCuts): void {
  const { doc, width } = set;
  const { units } = plan;
  const strip = tubeStrip(doc, cuts, width, units);
  const head = paragraph(doc, headline(tube, cuts, units), width);
  const said = paragraph(doc, dialWords(cuts), width);
  const heightOf = (blocks: readonly Block[]): number => blocks.reduce((sum, b) => sum + b.height, 0);
  // A tube of very many pieces has a strip of several rows: its views then have a page of their own.
  const left = roomOf(set) - heightOf([...head, ...said, ...strip]) - 1;
  const room = left >= LEAST_VIEWS ? left : roomOf(set) - heightOf([...head, ...said]) - 1;
  const clocked = clockedJoints(cuts);
  const rows = Math.floor(room / DIAL[1]);
  const few = clocked.length <= Math.min(BESIDE, 3 * rows);
  const columns = few ? Math.ceil(clocked.length / rows) : Math.floor(width / DIAL[0]);
  const dials = clockDials(cuts, clocked, columns, few ? DIAL[0] : width / columns);
  const forViews = few ? width - columns * DIAL[0] : width;
  const views = tubeViews(plan, tube, cuts, forViews, room);
  const first = few
    ? beside([
        { x: 0, block: views },
        { x: forViews, block: stacked(dials) },
      ])
    : views;
  addSheet(set, `Tube: ${cuts.name}`, [
    ...head,
    first,
    space(1),
    ...(few ? said : []),
    ...strip,
    ...(few ? [] : [...said.map((b) => ({ ...b, keep: true })), space(2, true), ...dials]),
    ...TUBE_CAUTIONS.flatMap((line) => paragraph(doc, line, width, '!').map((b) => ({ ...b, keep: true }))),
    space(2, true),
    heading('Pieces'),
    ...pieceTable(doc, cuts, width, units),
    space(2),
    heading('Joints'),
    ...jointTable(doc, cuts, width, units).map((b) => ({ ...b, keep: true })),
    space(2, true),
    ...tubeSums(doc, cuts, width, units).map((b) => ({ ...b, keep: true })),
  ]);
}

const TUBE_CAUTIONS = [
  'Cutting and grinding: eyes, ears, lungs, hands. Clamp the tube; deburr inside and outside before you measure.',
  'Welding: extract the fume, that of stainless steel holds hexavalent chromium. Purge gas displaces air: ventilate. Take printed parts off before full welding.',
];

const headline = ({ target, length }: RoutedTube, cuts: TubeCuts, units: Units): string =>
  `Centreline ${lengthWords(length, 2, units)}, target ${lengthWords(target, 2, units)}; ${cuts.pieces.length} pieces, ${cuts.joints.filter((j) => j.kind === 'butt').length} butt joints. ${sizes(cuts, units)}.`;

/** The sizes of a tube in order, each once. */
const sizes = ({ pieces }: TubeCuts, units: Units): string =>
  [
    ...new Set(
      pieces.map((c) =>
        units === 'in' ? sizeWords([c.od, c.wall], units) : `${fixed(c.od, 1)} x ${fixed(c.wall, 2)} mm`,
      ),
    ),
  ].join(', then ');
