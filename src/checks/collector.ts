import { degrees } from '../geometry/angle.js';
import { frameFrom } from '../geometry/frame.js';
import { type Path, partOfPath, pathLength } from '../geometry/path/path.js';
import { skinGap, skinGapTo, type TubeRun } from '../geometry/space/skin-gap.js';
import { along } from '../geometry/vec3.js';
import { inletTube } from '../params/collector/inlet-tube.js';
import { type LengthWords, lengthsIn } from '../params/faults/wording.js';
import type { Plan } from '../params/plan.js';
import { ATTACHED_HALF_ANGLE, coneLengthFor } from '../parts/collector/cone-growth.js';
import { type CollectorGeometry, collectorGeometry } from '../parts/collector/merge-geometry.js';
import { equalRadius } from '../parts/collector/merge-ring.js';
import type { RoutedTube } from '../routing/routed.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';
import { GAP_SLACK } from './slack.js';

/** What an angle may pass its limit by and still hold, deg: rounding of lengths that were worked out from it. */
const SLACK = 1e-6;

const LIMIT = degrees(ATTACHED_HALF_ANGLE);

/** The limit's source, as it stands in a sentence. */
const SOURCE = `the flow follows the wall up to about ${LIMIT} deg half-angle (a review citing Azad 1996)`;

const geometryOf = (plan: Plan, i: number): CollectorGeometry => {
  const c = plan.collectors[i]!;
  return collectorGeometry(c, inletTube(plan, c));
};

/** Every cone and diffuser of every collector: where it widens, against the half-angle up to which the flow follows the wall. */
export function diffusers({ plan }: CheckContext): Finding[] {
  const words = lengthsIn(plan.units);
  return plan.collectors.flatMap(({ name }, i) => {
    const g = geometryOf(plan, i);
    const { throat } = g;
    return [
      widening(`collector ${name}, cone`, g.coneHalfAngle, equalRadius(g.area.mergeEnd), g.coneEnd.bore, words),
      ...(throat === null || throat.diffuserEnd <= throat.to
        ? []
        : [widening(`collector ${name}, diffuser`, throat.diffuserHalfAngle, throat.bore, g.outletBore, words)]),
    ];
  });
}

function widening(place: string, halfAngle: number, from: number, to: number, words: LengthWords): Finding {
  const value = degrees(halfAngle);
  const of = `${Math.abs(value).toFixed(1)} deg half-angle, as a round cone of the same areas`;
  const least = words(coneLengthFor(from, to, ATTACHED_HALF_ANGLE), 0);
  const wide = value > LIMIT + SLACK;
  return {
    id: 'collector.diffuser',
    level: wide ? 'warn' : 'ok',
    place,
    value: Math.max(0, value),
    limit: LIMIT,
    unit: 'deg',
    message: wide
      ? `Widens at ${of}; ${SOURCE}: make it ${least} long, or the outlet smaller.`
      : value > 0
        ? `Widens at ${of}; ${SOURCE}.`
        : `Draws in at ${of}: no flow leaves the wall there.`,
  };
}

/** A venturi's throat against one inlet: smaller than that, it chokes every pulse. Common practice, no source. */
export function throats({ plan }: CheckContext): Finding[] {
  return plan.collectors.flatMap(({ name }, i): Finding[] => {
    const { area, inlets } = geometryOf(plan, i);
    if (area.throat === null) return [];
    const value = (area.throat * inlets) / area.inlets;
    const small = value < 1 - 1e-9;
    const words = `The throat has ${value.toFixed(2)} times the area of one inlet`;
    return [
      {
        id: 'collector.throat',
        level: small ? 'warn' : 'ok',
        place: `collector ${name}, throat`,
        value,
        limit: 1,
        unit: 'ratio',
        message: small ? `${words}: less than one tube brings (common practice, no source).` : `${words}.`,
      },
    ];
  });
}

/** Every branch against what stands near it: tubes, other collectors and their branches, kept-out space. */
export function branches(context: CheckContext): Finding[] {
  const { plan } = context;
  const words = lengthsIn(plan.units);
  return plan.collectors.flatMap((c, i): Finding[] => {
    const run = branchRun(plan, i);
    if (run === null) return [];
    const whole = plan.collectors.length > 1 ? `branch of collector ${c.name}` : 'branch of the collector';
    const limit = plan.runners.clearance;
    const found = [...nearTubes(context, i, run), ...nearBranches(plan, i, run), ...nearSpace(context, i, whole, run)];
    return found.map(({ place, gap, least = limit }) => ({
      id: 'collector.branch',
      level: gap >= least - GAP_SLACK ? 'ok' : 'fail',
      place: `${whole} and ${place}`,
      value: gap,
      limit: least,
      unit: 'mm',
      message: `${gap < 0 ? `The skins overlap by ${words(-gap, 2)}` : `${words(gap, 2)} between skins`}, ${words(least, 2)} wanted${gap >= least - GAP_SLACK ? '' : ': turn the branch (clocking), move it (at) or shorten it (length)'}.`,
    }));
  });
}

interface Near {
  readonly place: string;
  readonly gap: number;
  readonly least?: number;
}

/** The branch from where it leaves its host's skin to its open end, as a tube; null without one. */
function branchRun(plan: Plan, i: number): TubeRun | null {
  const g = geometryOf(plan, i);
  const { branch } = g;
  if (branch === null) return null;
  const frame = frameFrom(plan.collectors[i]!.frame, branch.frame);
  const skin = (branch.host.kind === 'tail' ? branch.host.radius : g.coneEnd.outside) / Math.sin(branch.angle);
  const from = Math.min(skin, branch.length - 1);
  const path: Path = {
    segments: [
      { kind: 'straight', from: along(frame.origin, frame.z, from), direction: frame.z, length: branch.length - from },
    ],
  };
  return { path, steps: [{ from: 0, radius: branch.od / 2 }] };
}

function nearTubes({ plan, primaries, secondaries }: CheckContext, i: number, run: TubeRun): Near[] {
  const own = plan.collectors[i]!.name;
  const tubes: readonly RoutedTube[] = [...primaries, ...secondaries];
  return tubes.map((t) => {
    // the secondary of the same collector begins beside the branch: an end counts as a ball, so it is cut back by that
    const back = t.id === own ? Math.min(plan.secondaries!.od / 2, pathLength(t.path) / 2) : 0;
    const path = back > 0 ? partOfPath(t.path, back, pathLength(t.path)) : t.path;
    const steps = t.sections.map((s) => ({ from: Math.max(0, s.from - back), radius: s.od / 2 }));
    return { place: t.name, gap: skinGap(run, { path, steps }).gap };
  });
}

function nearBranches(plan: Plan, i: number, run: TubeRun): Near[] {
  return plan.collectors.slice(i + 1).flatMap(({ name }, k): Near[] => {
    const other = branchRun(plan, i + 1 + k);
    return other === null ? [] : [{ place: `branch of collector ${name}`, gap: skinGap(run, other).gap }];
  });
}

function nearSpace({ plan, problem }: CheckContext, i: number, whole: string, run: TubeRun): Near[] {
  const own = plan.collectors.length > 1 ? `collector ${plan.collectors[i]!.name}` : 'collector';
  return problem.keptOut
    .filter((k) => k.name !== own && k.name !== whole && !k.name.startsWith('branch of '))
    .map((k) => ({ place: k.name, gap: skinGapTo(run, k.obstacle).gap, least: k.limit }));
}
