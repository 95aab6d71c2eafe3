import { degrees } from '../../geometry/angle.js';
import { mitredBend } from '../../geometry/development/mitred-bend.js';
import { type CutSurface, squareEnd, type TubeEnd, tubeEnd } from '../../geometry/development/tube-end.js';
import { lengthWords } from '../../params/faults/wording.js';
import type { Pattern } from './pattern.js';
import { type Layout, markedRadius, type RoundTube, STRIP, wrapPattern } from './wrap.js';

/** What is said of a tube's pattern. */
interface Named {
  /** Safe as a file name. */
  readonly name: string;
  readonly title: string;
  readonly count: number;
}

/** A plane `angle` rad from square across, `height` mm up the axis; the tube is longest at angle 0. */
const mitre = (angle: number, height: number): CutSurface => ({
  kind: 'plane',
  plane: { point: [0, 0, height], normal: [Math.sin(angle), 0, -Math.cos(angle)] },
});

const flatCut = (side: Layout['wrap']): string =>
  `The line is where a flat cut shows on the ${side}: saw flat through, not square to the skin`;

/** The end of a tube cut by one plane `angle` rad from square across. */
export function mitrePattern(
  named: Named,
  tube: RoundTube,
  angle: number,
  layout: Layout,
  words: { readonly reference: string; readonly guide: string; readonly notes: readonly string[] },
): Pattern {
  const radius = markedRadius(tube, layout.wrap);
  const base = -radius * Math.tan(angle) - STRIP;
  return wrapPattern(
    {
      ...named,
      tube,
      low: squareEnd(base),
      high: tubeEnd([mitre(angle, 0)], radius),
      ...words,
      notes: [
        ...words.notes,
        `Cut ${degrees(angle).toFixed(2)} deg from square across; it meets the tube's axis ${lengthWords(-base, layout.units, 2)} above the lower edge`,
        flatCut(layout.wrap),
      ],
    },
    layout,
  );
}

/** The segments of a mitred bend: those in the middle, where there are any, and both ends. Throws RangeError as mitredBend does. */
export function pieCutPatterns(
  named: Named,
  tube: RoundTube,
  bend: { readonly turn: number; readonly clr: number; readonly joints: number },
  layout: Layout,
): readonly Pattern[] {
  const { cut, segment, end, middles } = mitredBend(bend.turn, bend.clr, bend.joints, tube.od);
  const radius = markedRadius(tube, layout.wrap);
  const high = (height: number): TubeEnd => tubeEnd([mitre(cut, height)], radius);
  const words = {
    reference: 'outside of the bend',
    guide: 'along the bend',
  };
  const whole = `${degrees(bend.turn).toFixed(2)} deg about ${lengthWords(bend.clr, layout.units, 2)} in ${bend.joints} ${bend.joints === 1 ? 'joint' : 'joints'}: every cut ${degrees(cut).toFixed(2)} deg from square across`;
  const ends = wrapPattern(
    {
      ...words,
      name: `${named.name}-end`,
      title: `${named.title}: end segment`,
      count: 2 * named.count,
      tube,
      low: squareEnd(0),
      high: high(end),
      notes: [
        whole,
        `The lower edge is where the bend begins, ${lengthWords(end, layout.units, 2)} from the joint on the centreline: leave the straight on`,
        flatCut(layout.wrap),
      ],
    },
    layout,
  );
  if (middles === 0) return [ends];
  const top = high(segment / 2);
  const middle = wrapPattern(
    {
      ...words,
      name: `${named.name}-segment`,
      title: `${named.title}: middle segment`,
      count: middles * named.count,
      tube,
      low: { height: (phi) => -top.height(phi), corners: [] },
      high: top,
      notes: [
        whole,
        `${lengthWords(segment, layout.units, 2)} long on the centreline`,
        'From one tube without waste: give the tube half a turn after every cut',
        flatCut(layout.wrap),
      ],
    },
    layout,
  );
  return [middle, ends];
}
