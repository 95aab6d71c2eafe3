import { pathLength } from '../../geometry/path/path.js';
import { placed, type Solid, solidOf } from '../../geometry/solid/solid.js';
import { textSolid } from '../../geometry/solid/text-solid.js';
import { type SkinBlock, skinAngle, skinBlocks, type TubeSkin } from '../../geometry/sweep/tube-skin.js';
import type { Vec3 } from '../../geometry/vec3.js';
import { RAISED } from './printed-writing.js';
import { type SkinText, skinText, type Taken } from './skin-text.js';

/** What is to be marked on one dummy tube. */
export interface Marked {
  readonly skin: TubeSkin;
  readonly name: string;
  /** Running length of its start from the head face or from the outlet, mm. */
  readonly fromRun: number;
  readonly scale: 'mm' | 'in' | null;
  /** What is kept clear of marks at either end, mm. */
  readonly clear: readonly [start: number, end: number];
  /** How far before its start the skin begins, mm: a tilted end. */
  readonly back: number;
  /** The joints at its ends; null where there is none to mark. */
  readonly joints: readonly [start: MarkedJoint | null, end: MarkedJoint | null];
  /** Half the angle of the foot under a lying tube, rad; 0 for one that stands. */
  readonly foot: number;
}

/** A joint of the steel tube at one end of a dummy. */
export interface MarkedJoint {
  readonly name: string;
  /** Where the clocking line goes: the normal that is carried along the tube, square to it there. */
  readonly normal: Vec3;
}

/** Marks to add to a tube and to cut into it. */
export interface TubeMarks {
  readonly raised: readonly Solid[];
  readonly cut: readonly Solid[];
}

/** Ticks of the scale stand this proud and reach this far into the skin, mm; they print as two layers or one line. */
export const TICK = { high: 0.4, low: -0.6, width: 0.8, short: 4, long: 8 } as const;

/** Distance of ticks, mm, and which of them are long and bear a number. */
export const SCALES = {
  mm: { tick: 10, long: 5, number: (k: number) => String(10 * k) },
  in: { tick: 12.7, long: 2, number: (k: number) => `${k / 2}` },
} as const;

/** A clocking line: cut this deep and wide, as long from the joint as this, mm. */
export const LINE = { depth: 0.6, width: 1, length: 10 } as const;

/** Heights of writing: the piece's name, a joint's, a number of the scale; and the least a printer can draw, mm. */
const NAME = { most: 10, least: 4 };
const JOINT = { most: 6, least: 4 };
const NUMBER = { most: 4, least: 4 };

/** Angle of the name: on top of a bend that lies, where a straight's reference line is. */
const ON_TOP = Math.PI / 2;

/**
 * The marks of one dummy tube. The scale stands on the outside of the bend, its ticks in planes square to the centreline at the
 * true running length, so that along the outside they are further apart than on the centreline. At every joint of the steel
 * tube a line of 10 mm is cut along the carried reference, so that the lines of two pieces meet, and the joint's name stands by it.
 */
export function tubeMarks(marked: Marked): TubeMarks {
  const { skin, joints, scale } = marked;
  const taken: Taken[] = marked.foot > 0 ? [footStrip(marked)] : [];
  const texts: SkinText[] = [];
  const write = (words: string, size: { most: number; least: number }, run: number, angle: number): boolean => {
    const text = skinText(words, { skin, run, angle, ...size, taken, clear: marked.clear });
    if (text === null) return false;
    texts.push(text);
    taken.push(text.place);
    return true;
  };
  write(marked.name, NAME, pathLength(skin.path) / 2, ON_TOP);
  const lines = joints.flatMap((joint, end) => (joint === null ? [] : clockingLine(marked, joint, end, taken)));
  taken.push(...lines.map(placeOf));
  const ticks = scale === null ? [] : scaleTicks(marked, scale);
  if (ticks.length > 0) taken.push(scaleStrip(marked));
  joints.forEach((joint, end) => {
    if (joint !== null) writeJoint(marked, joint.name, end, write);
  });
  // the numbers stand in the room beside the strip of ticks
  for (const tick of ticks.filter((t) => t.number !== null)) {
    write(tick.number!, NUMBER, tick.run, (TICK.long / 2 + 0.6 + NUMBER.most / 2) / skin.radius);
  }
  const raised = texts.map((t) => placed(textSolid(t.strokes, -t.sunk, RAISED), t.frame));
  return {
    raised: [
      ...(ticks.length > 0
        ? [
            solidOf(
              skinBlocks(
                skin,
                ticks.map((t) => t.block),
              ),
            ),
          ]
        : []),
      ...raised,
    ],
    cut: lines.length > 0 ? [solidOf(skinBlocks(skin, lines))] : [],
  };
}

interface Tick {
  readonly run: number;
  readonly number: string | null;
  readonly block: SkinBlock;
}

/** Ticks within a piece; none in what is kept clear at its ends. */
function scaleTicks({ skin, fromRun, clear }: Marked, scale: 'mm' | 'in'): Tick[] {
  const { tick, long, number } = SCALES[scale];
  const half = TICK.width / 2;
  const [least, most] = [fromRun + clear[0] + half, fromRun + pathLength(skin.path) - clear[1] - half];
  const ticks: Tick[] = [];
  for (let k = Math.ceil(least / tick - 1e-9); k * tick <= most + 1e-9; k++) {
    const run = k * tick - fromRun;
    const isLong = k % long === 0;
    const reach = (isLong ? TICK.long : TICK.short) / 2 / skin.radius;
    const block = {
      from: run - half,
      to: run + half,
      angleFrom: -reach,
      angleTo: reach,
      low: TICK.low,
      high: TICK.high,
    };
    ticks.push({ run, number: isLong && k > 0 ? number(k) : null, block });
  }
  return ticks;
}

/** The line at one end (0 start, 1 end), as long as there is room before what is written. */
function clockingLine({ skin, back }: Marked, joint: MarkedJoint, end: number, taken: readonly Taken[]): SkinBlock[] {
  const whole = pathLength(skin.path);
  const angle = skinAngle(skin, end === 0 ? 0 : whole, joint.normal);
  const half = LINE.width / 2 / skin.radius;
  let length = Math.min(LINE.length, whole / 3);
  for (const t of taken) {
    if (t.foot || apart(t.angle, angle) > t.halfAngle + half) continue;
    length = Math.min(length, (end === 0 ? t.run - t.halfRun : whole - t.run - t.halfRun) - 0.5);
  }
  if (length < 2) return [];
  const [from, to] = end === 0 ? [-back - 1, length] : [whole - length, whole + 1];
  return [{ from, to, angleFrom: angle - half, angleTo: angle + half, low: -LINE.depth, high: TICK.high + 0.3 }];
}

const placeOf = ({ from, to, angleFrom, angleTo }: SkinBlock): Taken => ({
  run: (from + to) / 2,
  halfRun: (to - from) / 2,
  angle: (angleFrom + angleTo) / 2,
  halfAngle: (angleTo - angleFrom) / 2,
});

/** Least difference of two angles, rad. */
const apart = (a: number, b: number): number => Math.abs(Math.atan2(Math.sin(a - b), Math.cos(a - b)));

const wholeStrip = (skin: TubeSkin, angle: number, halfAngle: number): Taken => {
  const half = pathLength(skin.path) / 2;
  return { run: half, halfRun: half, angle, halfAngle };
};

const footStrip = ({ skin, foot }: Marked): Taken => ({ ...wholeStrip(skin, -ON_TOP, foot), foot: true });

const scaleStrip = ({ skin }: Marked): Taken => wholeStrip(skin, 0, TICK.long / 2 / skin.radius);

/** Angles a joint's name is tried at, degrees: by the piece's name first, then round to where the scale is not. */
const JOINT_ANGLES = [90, 60, 120, 45, 135, -45, 150, -60, 180, -135, -90];

/** The joint's name close to its end, where there is room. */
function writeJoint(
  { skin, clear }: Marked,
  name: string,
  end: number,
  write: (words: string, size: { most: number; least: number }, run: number, angle: number) => boolean,
): void {
  const whole = pathLength(skin.path);
  for (let height = JOINT.most; height >= JOINT.least; height--) {
    // a figure or letter is about 0.85 of its height wide in this font
    const half = (0.85 * height * name.length) / 2 + 1;
    const run = end === 0 ? clear[0] + half : whole - clear[1] - half;
    for (const degrees of JOINT_ANGLES) {
      if (write(name, { most: height, least: height }, run, (degrees * Math.PI) / 180)) return;
    }
  }
}
