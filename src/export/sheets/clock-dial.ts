import type { Vec2 } from '../../geometry/vec2.js';
import type { Joint } from '../../parts/tube/joint.js';
import type { TubeCuts } from '../../parts/tube/tube-cuts.js';
import type { Doc } from '../paper/document.js';
import { BODY, LEADING, words } from '../paper/words.js';
import { type Block, beside } from './block.js';
import { letterOf, shortJoint } from './piece-as-cut.js';
import { bothSenses, fixed } from './sheet-numbers.js';

/** Radius of a dial, and room for its numerals, mm. */
const RADIUS = 8;
const ROUND = 4.3;

/** Room a dial takes with its words, mm. */
export const DIAL: Vec2 = [35, 2 * (RADIUS + ROUND) + 2 * LEADING + 1.8];

/** What the lines of a dial are. */
export const dialWords = ({ joints }: TubeCuts): string =>
  `Clock dials: seen along the gas. Solid line, at 12: line of the piece before (joint 0: ${joints[0]!.kind === 'outlet' ? 'inlet 1 of the collector it leaves' : 'up of the head'}); dashed line with a ring: of the piece after. A bend is marked along its outside.`;

/** A joint whose clocking is known. */
interface Clocked extends Joint {
  readonly clocking: number;
}

/** The joints of a tube that have a dial. */
export const clockedJoints = ({ joints }: TubeCuts): readonly Clocked[] =>
  joints.filter((j): j is Clocked => j.clocking !== null);

/** Dials in rows of so many. */
export const clockDials = (cuts: TubeCuts, joints: readonly Clocked[], columns: number, cell = DIAL[0]): Block[] =>
  Array.from({ length: Math.ceil(joints.length / columns) }, (_, r) =>
    beside(
      joints.slice(r * columns, (r + 1) * columns).map((joint, i) => ({ x: i * cell, block: dial(cuts, joint, cell) })),
    ),
  );

/** The turn from the line of the piece before, at 12, to that of the piece after, seen along the gas. */
function dial(cuts: TubeCuts, joint: Clocked, width: number): Block {
  const letter = (name: string | null): string => {
    const piece = cuts.pieces.find((c) => c.piece.name === name);
    return piece === undefined ? joint.kind : letterOf(piece);
  };
  const title = `${shortJoint(joint)}: ${letter(joint.before)} to ${letter(joint.after)}`;
  const turn = `${fixed(bothSenses(joint.clocking).clockwise, 1)} deg clockwise`;
  return {
    height: DIAL[1],
    draw: (doc, [x, y]) => {
      const centre: Vec2 = [x + width / 2, y + RADIUS + ROUND];
      drawDial(doc, centre, joint.clocking);
      const below = y + 2 * (RADIUS + ROUND);
      words(doc, title, centre[0], below + 4.2, BODY, 'center', true);
      words(doc, turn, centre[0], below + 4.2 + LEADING, BODY, 'center');
    },
  };
}

/** Point of a dial at an angle clockwise from 12. */
const onDial = ([x, y]: Vec2, angle: number, r: number): Vec2 => [x + r * Math.sin(angle), y - r * Math.cos(angle)];

function drawDial(doc: Doc, centre: Vec2, clocking: number): void {
  doc.lineWidth(0.3).circle(centre[0], centre[1], RADIUS).stroke();
  for (let hour = 1; hour <= 12; hour++) {
    const angle = (hour * Math.PI) / 6;
    const quarter = hour % 3 === 0;
    const [from, to] = [onDial(centre, angle, RADIUS - (quarter ? 2 : 1.2)), onDial(centre, angle, RADIUS)];
    doc
      .lineWidth(quarter ? 0.35 : 0.2)
      .moveTo(from[0], from[1])
      .lineTo(to[0], to[1])
      .stroke();
    if (!quarter) continue;
    const [nx, ny] = onDial(centre, angle, RADIUS + 2.7);
    words(doc, String(hour), nx, ny + 1.15, BODY, 'center');
  }
  doc.circle(centre[0], centre[1], 0.5).fill();
  const before = onDial(centre, 0, RADIUS - 2.6);
  doc.lineWidth(0.5).moveTo(centre[0], centre[1]).lineTo(before[0], before[1]).stroke();
  doc.circle(before[0], before[1], 0.8).fill();
  const after = onDial(centre, clocking, RADIUS - 2.6);
  doc
    .lineWidth(0.5)
    .dash(1.2, { space: 0.7 })
    .moveTo(centre[0], centre[1])
    .lineTo(after[0], after[1])
    .stroke()
    .undash();
  doc.lineWidth(0.3).circle(after[0], after[1], 1.3).stroke();
}
