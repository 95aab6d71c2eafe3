import { degrees } from '../../geometry/angle.js';
import { hostCut, type Saddle, saddleHole } from '../../geometry/development/saddle.js';
import { seatedEnd, squareEnd } from '../../geometry/development/tube-end.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import { translateOutline } from '../../geometry/outline/transform.js';
import { lengthsIn, lengthWords, sizeWords } from '../../params/faults/wording.js';
import type { LengthUnit } from '../../params/units.js';
import type { Pattern } from './pattern.js';
import { EDGE_TOLERANCE, type Layout, type RoundTube, STRIP, wrapPattern } from './wrap.js';

/** A branch that stands on a host tube: axes `angle` rad apart and `offset` mm past each other. */
export interface SaddleJoint {
  /** Safe as a file name. */
  readonly name: string;
  readonly title: string;
  readonly count: number;
  readonly branch: RoundTube;
  readonly host: RoundTube;
  readonly angle: number;
  readonly offset: number;
}

/** Paper left before and behind a hole, mm. */
const BESIDE = 20;

/**
 * The branch's end and the opening in its host. The branch is developed for a cut square to its skin: it touches the host at its bore
 * and stands open outside for the weld; where it leans over the host it touches at its skin. The opening is the bore's. Throws RangeError when the bore passes beside the host.
 */
export function saddlePatterns(joint: SaddleJoint, layout: Layout): readonly [branch: Pattern, hole: Pattern] {
  const saddle: Saddle = { angle: joint.angle, offset: joint.offset, hostRadius: joint.host.od / 2 };
  return [branchPattern(joint, saddle, layout), holePattern(joint, saddle, layout)];
}

function branchPattern(joint: SaddleJoint, saddle: Saddle, layout: Layout): Pattern {
  const { branch, host } = joint;
  const words = lengthsIn(layout.units);
  const high = seatedEnd(hostCut(saddle), branch.od / 2 - branch.wall, branch.od / 2);
  const least = lowest(high.height);
  const base = least - STRIP;
  return wrapPattern(
    {
      name: `${joint.name}-branch`,
      title: `${joint.title}: end of the branch`,
      count: joint.count,
      tube: branch,
      low: squareEnd(base),
      high,
      reference: isSquare(saddle) ? 'along the host' : 'long side',
      guide: 'to the host',
      notes: [
        `Tube ${size(branch, layout.units)} on a tube of ${words(host.od, 2)} at ${degrees(joint.angle).toFixed(2)} deg${joint.offset > 0 ? `, axes ${words(joint.offset, 2)} past each other` : ''}`,
        `The axes pass each other ${words(-base, 2)} above the lower edge`,
        isSquare(saddle)
          ? 'Cut square to the skin: it touches the host at the bore; bevel the outside for the weld'
          : 'Cut square to the skin: it touches the host at the bore, on the short side at the skin; bevel for the weld',
        ...(joint.offset > 0 ? ["The host's axis passes on the side of the 90 degree line"] : []),
      ],
    },
    layout,
  );
}

function holePattern(joint: SaddleJoint, saddle: Saddle, wanted: Layout): Pattern {
  const { branch, host } = joint;
  const { units } = wanted;
  // A hole is marked on the skin the branch stands on.
  const layout: Layout = { ...wanted, wrap: 'outside' };
  const round = (host.od + layout.paper) / 2;
  const hole = saddleHole(saddle, branch.od / 2 - branch.wall, round, EDGE_TOLERANCE);
  const { from, to } = outlineBounds(hole.outline);
  const strip = wrapPattern(
    {
      name: `${joint.name}-hole`,
      title: `${joint.title}: opening in the host`,
      count: joint.count,
      tube: host,
      low: squareEnd(from[1] - BESIDE),
      high: squareEnd(to[1] + BESIDE),
      reference: 'towards the branch',
      guide: 'along the host',
      notes: [
        `Opening for the bore of a branch of ${size(branch, units)}, ${sizeWords([to[0] - from[0], to[1] - from[1]], units, 2)} on paper`,
        `The axes pass each other ${lengthWords(BESIDE - from[1], units, 2)} above the lower edge`,
        ...(isSquare(saddle) ? [] : ["The branch's long side stands at the upper end of the opening"]),
      ],
    },
    layout,
  );
  // The seam is opposite the branch, so its middle is half way along.
  const at = [Math.PI * round, BESIDE - from[1]] as const;
  return {
    ...strip,
    holes: [translateOutline(hole.outline, at)],
    deviation: Math.max(strip.deviation, hole.deviation),
  };
}

const isSquare = ({ angle }: Saddle): boolean => Math.abs(angle - Math.PI / 2) < 1e-9;

const size = ({ od, wall }: RoundTube, units: LengthUnit): string => sizeWords([od, wall], units, 2);

/** Least of a height round the tube, to what half a degree leaves open. */
const lowest = (height: (phi: number) => number): number =>
  Math.min(...Array.from({ length: 720 }, (_, i) => height((i * Math.PI) / 360)));
