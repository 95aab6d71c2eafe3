import { type Frame, frameAlong } from '../../geometry/frame.js';
import { headingAt } from '../../geometry/path.js';
import type { Pairing } from '../../geometry/solid.js';
import { distance2 } from '../../geometry/vec2.js';
import { angleBetween, scale, type Vec3 } from '../../geometry/vec3.js';
import { inletTube } from '../../params/inlet-tube.js';
import type { Plan } from '../../params/plan.js';
import type { RoutedSecondary, RoutedTube } from '../../routing/routed.js';
import { cylinderOf, piecesOf } from '../pieces.js';
import { collectorFiles } from '../printed-part.js';
import { printedSpans } from './printed-spans.js';
import { circleThrough } from './proof-circle.js';
import { pointsNear } from './proof-section.js';
import type { StandingPart } from './standing-part.js';
import { flangeFace } from './tube-jigs.js';

/** Two neighbours of a tube's row as they meet, measured on their meshes; mm. */
export interface MateProof {
  readonly before: string;
  readonly after: string;
  /** Running length of the joint. */
  readonly run: number;
  /** Distance where no face was found. */
  readonly face: number | null;
  /** Distance between the middles of the two round faces; null where one is not round. */
  readonly offset: number | null;
  /** Gap at the key: the least distance when the later part is drawn back by `drawn`; as much as `drawn` where there is no key. */
  readonly fit: number;
  readonly drawn: number;
}

/** How much further than the fit a part is drawn back to measure it, mm. */
const DRAWN = 0.3;

/** Two neighbours of a row and where they meet. */
export interface Joint {
  readonly a: Side;
  readonly b: Side;
  readonly run: number;
  /** z the way the later part comes off. */
  readonly frame: Frame;
  /** Normal of the faces. */
  readonly normal: Vec3;
}

/** A part on one side of a joint. */
export interface Side {
  readonly part: StandingPart;
  /** Of its round face, mm. */
  readonly radius: number;
}

/** What is to be measured between two standing parts by the kernel, and where the answer goes. */
export interface MateSearch {
  readonly joint: Joint;
  /** Numbers of the parts in the list of all that stand. */
  readonly pairing: Pairing;
}

/** The joints of every tube from the plug or the stem it stands on to its collector's holder, as far as both parts are there. */
export function mateSearches(
  plan: Plan,
  tubes: readonly RoutedTube[],
  standing: readonly StandingPart[],
): MateSearch[] {
  const drawn = plan.jig.fit + DRAWN;
  return tubes
    .flatMap((tube) => jointsOf(plan, tube, standing))
    .map((joint) => ({
      joint,
      pairing: {
        a: standing.indexOf(joint.a.part),
        b: standing.indexOf(joint.b.part),
        shift: scale(joint.frame.z, drawn),
        within: drawn,
      },
    }));
}

/** A joint as measured: `gap` is what the kernel found with the later part drawn back. */
export function mateOf({ joint, pairing }: MateSearch, gap: number): MateProof {
  const tilt = angleBetween(joint.normal, joint.frame.z);
  return {
    before: joint.a.part.part.name,
    after: joint.b.part.part.name,
    run: joint.run,
    ...facesOf(joint),
    fit: gap,
    drawn: pairing.within * Math.cos(tilt),
  };
}

function jointsOf(plan: Plan, tube: RoutedTube, standing: readonly StandingPart[]): Joint[] {
  const named = (name: string): StandingPart | undefined => standing.find((s) => s.part.name === name);
  const files = collectorFiles(plan.collectors);
  const suffix = (i: number): string => (plan.collectors.length === 1 ? '' : `-${files[i]!}`);
  const spans = printedSpans(piecesOf(plan, tube), plan.jig.bed, plan.jig.keyLength);
  const cylinder = cylinderOf(tube);
  const carrier =
    cylinder === null ? stemEnd(standing, suffix((tube as RoutedSecondary).from)) : named(`plug-${cylinder}`);
  const carrierOd = cylinder === null ? plan.collectors[(tube as RoutedSecondary).from]!.outlet.od : spans[0]!.od;
  const row: { part: StandingPart | undefined; radius: number; run: number }[] = [
    { part: carrier, radius: carrierOd / 2, run: spans[0]!.fromRun },
    ...spans.map((s) => ({ part: named(`tube-${s.file}`), radius: s.od / 2, run: s.toRun })),
    {
      part: named(`holder${suffix(tube.collector)}`),
      radius: inletTube(plan, plan.collectors[tube.collector]!).od / 2,
      run: tube.length,
    },
  ];
  const face = flangeFace(plan, cylinder);
  return row.slice(1).flatMap((b, i) => {
    const a = row[i]!;
    if (a.part === undefined || b.part === undefined) return [];
    const { point, direction } = headingAt(tube.path, a.run);
    const normal = i === 0 && face ? face.normal : direction;
    return [
      {
        a: { part: a.part, radius: a.radius },
        b: { part: b.part, radius: b.radius },
        run: a.run,
        frame: frameAlong(point, direction),
        normal,
      },
    ];
  });
}

/** The last bar of a stem, which carries the secondary. */
const stemEnd = (standing: readonly StandingPart[], suffix: string): StandingPart | undefined =>
  standing.findLast((s) => s.part.name === `stem${suffix}` || new RegExp(`^stem${suffix}-\\d+$`).test(s.part.name));

/** Depth and breadth about a face's rim in which its corners are looked for, mm. */
const RIM = 0.5;

function facesOf({ a, b, frame, normal }: Joint): Pick<MateProof, 'face' | 'offset'> {
  const plane = frameAlong(frame.origin, normal);
  const tilt = angleBetween(normal, frame.z);
  const rims = [a, b].map(({ part, radius }) =>
    pointsNear(part.mesh, plane, RIM, [radius - RIM, radius / Math.cos(tilt) + RIM]),
  );
  if (rims.some((r) => r.length < 3)) return { face: null, offset: null };
  // other edges end near the rim too: where a foot cuts a bend off, where writing stands
  const face = Math.max(...rims.map((rim) => threeQuarters(rim.map((p) => Math.abs(p[2])))));
  const circles = rims.map((rim) => circleThrough(rim.map(([x, y]) => [x, y])));
  const [first, second] = circles;
  const offset = tilt < 1e-9 && first && second ? distance2(first.centre, second.centre) : null;
  return { face, offset };
}

const threeQuarters = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(0.75 * (values.length - 1))]!;
