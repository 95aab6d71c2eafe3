import { outlineArea } from '../../geometry/outline/measure.js';
import type { Path } from '../../geometry/path/path.js';
import { segmentLength } from '../../geometry/path/path.js';
import { spanAtRun } from '../../geometry/path/span-at-run.js';
import { dot } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import type { RoutedPrimary, RoutedSecondary, RoutedTube } from '../../routing/routed.js';
import { openingFlow } from '../flange/opening.js';
import { plateDensity } from '../plate-density.js';
import { bendLoss } from './bend-loss.js';
import { type CollectorWay, collectorWay } from './collector-way.js';
import {
  circleArea,
  followedBy,
  type GasStation,
  type GasSystem,
  type GasWay,
  type WayBend,
  type WayMetal,
  type WayPart,
} from './gas-way.js';
import { endNotes, endOf, portNotes, portStations, tailpipe } from './port-path.js';

/** A routed header. */
export interface HeaderRoutes {
  /** The plan with its placed collectors. */
  readonly plan: Plan;
  /** Routed primaries. */
  readonly primaries: readonly RoutedPrimary[];
  /** Routed secondaries; none without 4-2-1. */
  readonly secondaries: readonly RoutedSecondary[];
}

/** A header's tubes and collectors as ways of the gas: as they are routed, or each tube stretched to its target. */
export function headerPath(header: HeaderRoutes, lengths: 'as routed' | 'equal lengths'): GasSystem {
  const { plan, primaries, secondaries } = header;
  const collectors = plan.collectors.map((c) => collectorWay(plan, c));
  const toTarget = lengths === 'equal lengths';
  // a collector of one inlet is no joint: what arrives there runs on
  const joints = collectors.filter((c) => c.joint !== null);
  const jointOf = (collector: number): number => joints.indexOf(collectors[collector]!);
  const ways = [
    ...primaries.map((p) => joined(primaryWay(plan, p, toTarget), p.collector, { cylinder: p.cylinder })),
    ...collectors.flatMap((c, i) => (c.joint === null ? [] : [leaving(c, i)])),
  ];
  return {
    name: lengths,
    ways,
    joints: joints.map((c) => c.joint!),
    end: endOf(plan),
    density: plan.stock.density ?? plateDensity(plan.tube.material),
    notes: [...portNotes(plan), ...endNotes(plan), ...collectorNotes(plan)],
  };

  function leaving(c: CollectorWay, index: number): GasWay {
    return onwards(c.way, index, { joint: jointOf(index) }, collectorName(plan, index));
  }

  /** A tube as far as the joint it ends at, through a collector of one inlet if need be. */
  function joined(part: WayPart, collector: number, from: GasWay['from']): GasWay {
    const c = collectors[collector]!;
    const name = 'cylinder' in from ? `cylinder ${from.cylinder}` : '';
    if (c.joint === null) return onwards(followedBy(part, c.way), collector, from, name);
    return finished(followedBy(part, c.run), from, { joint: jointOf(collector) }, name);
  }

  /** What leaves a collector: its own pipe, then a secondary or the tailpipe. */
  function onwards(part: WayPart, collector: number, from: GasWay['from'], name: string): GasWay {
    const secondary = secondaries.find((s) => s.from === collector);
    if (secondary !== undefined) {
      const tube = tubeWay(plan, secondary, toTarget ? secondary.target : secondary.length, 0);
      const on = followedBy(part, tube);
      const next = collectors[secondary.collector]!;
      const named = name.startsWith('collector') ? secondary.name : name;
      if (next.joint === null) return onwards(followedBy(on, next.way), secondary.collector, from, named);
      return finished(followedBy(on, next.run), from, { joint: jointOf(secondary.collector) }, named);
    }
    return finished(followedBy(part, tailpipe(plan)), from, 'end', name);
  }

  function finished(part: WayPart, from: GasWay['from'], to: GasWay['to'], name: string): GasWay {
    return { ...part, name, from, to, roughness: plan.tuning.roughness, heatShare: 1 };
  }
}

/** 'collector', or with its name where there are several. */
const collectorName = ({ collectors }: Plan, index: number): string =>
  collectors.length > 1 ? `collector ${collectors[index]!.name}` : 'collector';

/** From the valve through port and flange to the collector's inlet plane. */
function primaryWay(plan: Plan, tube: RoutedPrimary, toTarget: boolean): WayPart {
  const port = plan.ports.find((p) => p.cylinder === tube.cylinder)!;
  const across = dot(port.frame.z, plan.heads[port.head]!.frame.z);
  const through = plan.flange.thickness / across;
  const flow = openingFlow(plan, port);
  const inHead = portStations(plan, tube.cylinder);
  const opening: GasStation[] = [
    { at: 0, area: flow.areas.opening, what: 'flange' },
    { at: through, area: outlineArea(flow.outer) * across, what: 'outer face' },
  ];
  const lead: WayPart = {
    length: inHead.at(-1)!.at,
    stations: inHead,
    bends: [],
    metal: [],
  };
  const tubes = tubeWay(plan, tube, toTarget ? tube.target : tube.length, through);
  const own: WayPart = { ...tubes, stations: [...opening, ...tubes.stations] };
  if (lead.length > 0) return followedBy(lead, own);
  return { ...own, stations: [...inHead, ...own.stations] };
}

/** A tube from `skip` mm behind its start, stretched to a length as a whole: stations and bends move in proportion. */
function tubeWay(plan: Plan, tube: RoutedTube, length: number, skip: number): WayPart {
  const stretch = (length - skip) / (tube.length - skip);
  const place = (at: number): number => skip + (at - skip) * stretch;
  const bore = (s: { readonly od: number; readonly wall: number }): number => s.od - 2 * s.wall;
  const stations = tube.sections.flatMap((s, i): GasStation[] => {
    const from = i === 0 ? skip : place(s.from);
    const to = i + 1 < tube.sections.length ? place(tube.sections[i + 1]!.from) : length;
    const area = circleArea(bore(s));
    const end = i + 1 < tube.sections.length ? 'step' : 'tube end';
    return [
      { at: from, area, what: i === 0 ? 'tube' : 'step' },
      { at: to, area, what: end },
    ];
  });
  const metal: WayMetal[] = tube.sections.map((s, i) => ({
    from: i === 0 ? skip : place(s.from),
    to: i + 1 < tube.sections.length ? place(tube.sections[i + 1]!.from) : length,
    wall: s.wall,
  }));
  const boreAt = (at: number): number => bore(spanAtRun(tube.sections, at));
  return { length, stations, bends: bendsAlong(tube.path, plan.tuning.roughness, boreAt, place), metal };
}

/** Every bend of a route, the tube's bore there by its running length. */
function bendsAlong(
  path: Path,
  roughness: number,
  boreAt: (at: number) => number,
  place: (at: number) => number,
): WayBend[] {
  const bends: WayBend[] = [];
  let run = 0;
  for (const s of path.segments) {
    const end = run + segmentLength(s);
    if (s.kind === 'bend') {
      const bore = boreAt((run + end) / 2);
      const loss = bendLoss({ bore, clr: s.clr, angle: s.angle, roughness });
      bends.push({ from: place(run), to: place(end), bore, angle: s.angle, insideRadius: s.clr - bore / 2, loss });
    }
    run = end;
  }
  return bends;
}

const collectorNotes = ({ collectors }: Plan): string[] =>
  collectors.some((c) => c.branch !== null) ? ['A branch of a collector is left aside: closed.'] : [];
