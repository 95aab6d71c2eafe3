import { type Frame, frameAlong } from '../../geometry/frame.js';
import { headingAt } from '../../geometry/path/path.js';
import type { Pairing } from '../../geometry/solid/mesh-meetings.js';

import { distance2, type Vec2 } from '../../geometry/vec2.js';
import { angleBetween, scale, type Vec3 } from '../../geometry/vec3.js';
import { inletTube } from '../../params/collector/inlet-tube.js';
import type { Plan } from '../../params/plan.js';
import type { RoutedSecondary, RoutedTube } from '../../routing/routed.js';
import { collectorFiles } from '../printed-part.js';
import { cylinderOf, piecesOf } from '../tube/pieces.js';
import { printedSpans } from './printed-spans.js';
import { circleThrough } from './proof-circle.js';
import { flatRing } from './proof-section.js';
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

/** How far from a joint its faces are looked for, mm. */
const DEEP = 0.5;

/** Faces stand beyond this part of the tube's radius: further in are the key and what it stands in. */
const OUTER = 0.6;

function facesOf({ a, b, frame, normal }: Joint): Pick<MateProof, 'face' | 'offset'> {
  const plane = frameAlong(frame.origin, normal);
  const tilt = angleBetween(normal, frame.z);
  const rings = [a, b].map(({ part, radius }) =>
    flatRing(part.mesh, plane, DEEP, [OUTER * radius, radius / Math.cos(tilt) + DEEP]),
  );
  const [first, second] = rings;
  if (!first || !second) return { face: null, offset: null };
  const face = Math.max(Math.abs(first.height), Math.abs(second.height));
  const circles = [first, second].map(({ corners }) => circleThrough(rimOf(corners)));
  const offset = tilt < 1e-9 && circles[0] && circles[1] ? distance2(circles[0].centre, circles[1].centre) : null;
  return { face, offset };
}

/** How far within the outermost corner of a face its rim is looked for, mm. */
const RIM = 0.1;

/** The outer rim of a face: the flat a bend lies on and writing take but a part of it. */
function rimOf(corners: readonly Vec3[]): Vec2[] {
  const far = corners.map(([x, y]) => Math.hypot(x, y)).sort((p, q) => p - q);
  // a corner of its own, of writing, may stand out
  const rim = far[Math.floor(0.98 * (far.length - 1))]!;
  return corners.filter(([x, y]) => Math.abs(Math.hypot(x, y) - rim) < RIM).map(([x, y]) => [x, y]);
}
