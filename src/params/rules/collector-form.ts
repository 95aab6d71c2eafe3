import { leastBranch, saddleSpan } from '../../geometry/merge/branch-axis.js';
import { mergeEnd } from '../../geometry/merge/end.js';
import { hullReach, type RingSection } from '../../geometry/merge/section.js';
import { LENGTH_TOLERANCE } from '../../geometry/tolerance.js';
import { outletLength } from '../collector/outlet-length.js';
import { leastSlipGap } from '../collector/slip-gap.js';
import type { PlanFault } from '../faults/plan-problem.js';
import { lengthWords } from '../faults/wording.js';
import { collectorOutlet, mergeEndOf } from '../resolve/collector-outlet.js';
import {
  feedsAnother,
  mergeHalfAngleOf,
  type PlacedCollector,
  placedCollectors,
  placedInlets,
} from '../resolve/collectors.js';
import type { Draft } from '../resolve/draft.js';
import { placedHeads } from '../resolve/heads.js';
import { placedPorts } from '../resolve/ports.js';
import { lastSize } from '../resolve/tubes.js';
import type { TubeSize } from '../tube-growth.js';

/** Largest length of a cone or diffuser, mm: what the fields for lengths allow. */
const LONGEST = 2000;

/** Least length of a branch beyond its host's skin, mm: room for a weld and a clamp. Our choice. */
const STAND = 5;

/** What the words of a length may have lost, mm: three decimals of an inch. */
const AS_PRINTED = 0.02;

/** The form of every collector: spike, venturi, sleeves and branch against its tubes and its own lengths. */
export function collectorFormRules({ sections }: Draft): PlanFault[] {
  const ported = placedPorts(placedHeads(sections)).map((p) => p.port.cylinder);
  const collectors = placedCollectors(sections, ported);
  return collectors.flatMap((c) => {
    const { tube, secondaries } = sections;
    const joining = c.from.length > 0 ? secondaries : tube && lastSize(tube);
    if (joining === undefined || placedInlets(c) === 0) return [];
    const leaving = feedsAnother(c, collectors) ? secondaries : undefined;
    const wall = c.section.outlet.wall ?? (leaving ?? joining).wall;
    if (joining.wall >= joining.od / 2 || wall >= c.section.outlet.od / 2) return [];
    const words = (mm: number): string => lengthWords(mm, sections.units ?? 'mm');
    const form: Form = { c, joining, wall, words };
    const faults = [...spike(form), ...venturi(form), ...slip(form, tube?.min_straight_inlet)];
    const lengths = faults.length > 0 ? [] : coneLengths(form);
    return [...faults, ...lengths, ...(faults.length + lengths.length > 0 ? [] : branch(form))];
  });
}

interface Form {
  readonly c: PlacedCollector;
  /** The tube at the inlets. */
  readonly joining: TubeSize;
  /** Of the outlet, mm. */
  readonly wall: number;
  readonly words: (mm: number) => string;
}

function spike({ c }: Form): PlanFault[] {
  const inlets = placedInlets(c);
  if (c.section.centre === 'open' || inlets >= 3) return [];
  const message = `a spike fills the hole that three tubes or more leave between them, and ${inlets === 1 ? 'one inlet leaves' : 'two inlets leave'} none: take open`;
  return [{ path: [...c.path, 'centre'], message }];
}

function venturi({ c, wall, words }: Form): PlanFault[] {
  const { kind, od, throat, diffuser } = c.section.outlet;
  if (kind === 'cone' || throat === undefined) return [];
  const path = [...c.path, 'outlet'];
  const widens = od - 2 * wall - throat;
  if (widens < -LENGTH_TOLERANCE) {
    const message = `expected a throat no wider than the outlet's bore (${words(od - 2 * wall)}), found ${words(throat)}`;
    return [{ path: [...path, 'throat'], message }];
  }
  const straight = widens <= LENGTH_TOLERANCE;
  if (straight && diffuser?.length !== undefined) {
    const message = 'the throat is as wide as the outlet: there is nothing to widen; leave diffuser out';
    return [{ path: [...path, 'diffuser'], message }];
  }
  if (straight || diffuser !== undefined) return [];
  const message = `the throat widens by ${words(widens)} to the outlet: give the diffuser's half_angle or length`;
  return [{ path: [...path, 'throat'], message }];
}

function slip({ c, joining, words }: Form, leastStraight: number | undefined): PlanFault[] {
  const { slip: sleeves, gap } = c.section;
  if (sleeves === undefined) return [];
  const faults: PlanFault[] = [];
  const count = placedInlets(c);
  const least = leastSlipGap({ count, wall: joining.wall, fit: sleeves.fit, halfAngle: mergeHalfAngleOf(c) });
  if (count > 1 && gap < least - AS_PRINTED) {
    const message = `sleeves of ${words(joining.wall)} wall and ${words(sleeves.fit)} fit need a gap of at least ${words(least)} between the tubes, found ${words(gap)}`;
    faults.push({ path: [...c.path, 'slip'], atKey: true, message: `${message}: set gap` });
  }
  if (leastStraight !== undefined && sleeves.overlap > leastStraight + LENGTH_TOLERANCE) {
    const message = `the sleeve slips over straight tube, and only ${words(leastStraight)} of it are sure: expected at most that, or a larger tube.min_straight_inlet`;
    faults.push({ path: [...c.path, 'slip', 'overlap'], message });
  }
  return faults;
}

function coneLengths(form: Form): PlanFault[] {
  const { c, joining, wall, words } = form;
  const { cone_half_angle: angle, cone_length: given, diffuser } = c.section.outlet;
  if (angle === undefined && given === undefined) return [];
  const { coneLength, throat } = collectorOutlet(c, wall, joining);
  const path = [...c.path, 'outlet'];
  const faults: PlanFault[] = [];
  if (angle !== undefined && (coneLength < 1 || coneLength > LONGEST)) {
    const from = words(2 * mergeEndOf(c, joining));
    const message = `the merge ends with the area of a bore of ${from}; at this half-angle the cone comes out ${words(coneLength)} long: give cone_length`;
    faults.push({ path: [...path, 'cone_half_angle'], message });
  }
  if (diffuser !== undefined && throat !== null && throat.diffuserLength > LONGEST) {
    const message = `at this half-angle the diffuser comes out ${words(throat.diffuserLength)} long: at most ${words(LONGEST)}`;
    faults.push({ path: [...path, 'diffuser'], message });
  }
  return faults;
}

/** Where a branch may leave: a round tail, or the cone with its reach in the branch's direction at both ends, mm. */
interface Host {
  readonly from: number;
  readonly to: number;
  readonly reach: readonly [number, number];
  readonly bore: number;
}

function hostOf({ c, joining, wall }: Form, on: 'cone' | 'tail', clocking: number): Host {
  const count = placedInlets(c);
  const tilt = count === 1 ? 0 : mergeHalfAngleOf(c);
  const bore = joining.od / 2 - joining.wall;
  const { length, radius } = mergeEnd(count, joining.od, bore, c.section.gap, tilt);
  const outlet = collectorOutlet(c, wall, joining);
  const total = length + outletLength(outlet);
  if (on === 'tail') {
    const r = outlet.od / 2;
    return { from: total - outlet.tail, to: total, reach: [r, r], bore: outlet.od - 2 * wall };
  }
  const end = outlet.throat === null ? outlet.od / 2 - wall : outlet.throat.bore / 2;
  const ring: RingSection = { count, offset: radius, tilt, radius: bore + wall };
  return {
    from: length,
    to: length + outlet.coneLength,
    reach: [hullReach(ring, clocking), end + wall],
    bore: 2 * Math.min(end, bore),
  };
}

function branch(form: Form): PlanFault[] {
  const { c, wall, words } = form;
  const plan = c.section.branch;
  if (plan === undefined) return [];
  const path = [...c.path, 'branch'];
  const host = hostOf(form, plan.on, plan.clocking);
  if ((plan.wall ?? wall) >= plan.od / 2) {
    return [{ path: [...path, 'wall'], message: 'expected a wall thinner than half the branch' }];
  }
  if (plan.od > host.bore + LENGTH_TOLERANCE) {
    const message = `expected a branch no larger than the bore it leaves (${words(host.bore)}), found ${words(plan.od)}`;
    return [{ path: [...path, 'od'], message }];
  }
  const { at, angle, od, on } = plan;
  const [near] = saddleSpan(at, angle, od / 2, reachAt(host, at, angle, -od / 2));
  const [, far] = saddleSpan(at, angle, od / 2, reachAt(host, at, angle, od / 2));
  if (near < host.from - LENGTH_TOLERANCE || far > host.to + LENGTH_TOLERANCE) {
    const message = `the saddle runs from ${words(near)} to ${words(far)} behind the inlet plane and the ${on} from ${words(host.from)} to ${words(host.to)}: expected it wholly on the ${on}`;
    return [{ path: [...path, 'at'], message }];
  }
  const least = leastBranch(angle, od / 2, Math.max(...host.reach), STAND);
  if (plan.length >= least - LENGTH_TOLERANCE) return [];
  const message = `expected at least ${words(least)} from the collector's axis, so that it stands out of the skin, found ${words(plan.length)}`;
  return [{ path: [...path, 'length'], message }];
}

/**
 * How far the host reaches where the branch's generator `side` mm along the gas from its axis meets it, mm: the host's skin is
 * taken as a straight line between its ends, as a cone's is in one plane through its axis.
 */
function reachAt({ from, to, reach }: Host, at: number, angle: number, side: number): number {
  if (to <= from) return reach[0];
  const slope = (reach[1] - reach[0]) / (to - from);
  const start = at + side / Math.sin(angle);
  // start + r cot(angle) = z and r = reach[0] + slope (z - from)
  return (reach[0] + slope * (start - from)) / (1 - slope / Math.tan(angle));
}
