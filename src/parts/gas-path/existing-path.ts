import type { ExistingManifold, ExistingPipe } from '../../params/plan/existing.js';
import type { Plan } from '../../params/plan.js';
import { plateDensity } from '../plate-density.js';
import { bendLoss } from './bend-loss.js';
import {
  diameterAt,
  followedBy,
  type GasStation,
  type GasSystem,
  type GasWay,
  type WayBend,
  type WayPart,
} from './gas-way.js';
import { endNotes, endOf, portNotes, portStations, tailpipe } from './port-path.js';

/** Density of grey cast iron, kg/m3: handbooks have 7100 to 7300, from memory. */
const CAST_IRON = 7200;

/** kg/m3 by the words for a material. */
export const metalDensity = (material: string): number =>
  /cast|iron/i.test(material) && !/stainless|cast steel/i.test(material) ? CAST_IRON : plateDensity(material);

/** The manifold the builder has as ways of the gas, the ports in the head before it. */
export function existingPath(plan: Plan, existing: ExistingManifold): GasSystem {
  return {
    name: 'existing manifold',
    ways: existing.pipes.map((p) => wayOf(plan, existing, p)),
    joints: existing.collectors.map(({ name, volume }) => ({
      name,
      volume,
      surface: Math.cbrt(Math.PI) * Math.cbrt(6 * volume) ** 2,
      wall: existing.wall,
    })),
    end: endOf(plan),
    density: metalDensity(existing.material),
    notes: [...portNotes(plan), ...endNotes(plan)],
  };
}

function wayOf(plan: Plan, existing: ExistingManifold, pipe: ExistingPipe): GasWay {
  const cylinder = 'cylinder' in pipe.from ? pipe.from.cylinder : null;
  const port = cylinder === null ? [] : portStations(plan, cylinder);
  const start = port.at(-1)?.at ?? 0;
  const last = pipe.sections.length - 1;
  const sections = pipe.sections.map((s, i) => ({
    at: s.at + start,
    area: s.area,
    what: i === 0 ? 'manifold' : i === last ? 'end' : 'section',
  }));
  const stations = [...port, ...sections];
  const length = pipe.length + start;
  const { roughness, heatShare, wall } = existing;
  const own: WayPart = {
    length,
    stations,
    bends: bendsOf(pipe, stations, start, length, roughness),
    metal: [{ from: start, to: length, wall }],
  };
  return {
    ...(pipe.into === null ? followedBy(own, tailpipe(plan)) : own),
    name: cylinder === null ? `pipe from ${collectorName(existing, pipe)}` : `cylinder ${cylinder}`,
    from: 'cylinder' in pipe.from ? pipe.from : { joint: pipe.from.collector },
    to: pipe.into === null ? 'end' : { joint: pipe.into },
    roughness,
    heatShare,
  };
}

function bendsOf(
  { bends }: ExistingPipe,
  stations: readonly GasStation[],
  start: number,
  length: number,
  roughness: number,
): WayBend[] {
  return bends.map(({ at, angle, insideRadius }) => {
    const from = at + start;
    const bore = diameterAt(stations, from);
    const clr = insideRadius + bore / 2;
    const to = Math.min(length, from + clr * angle);
    return { from, to, bore, angle, insideRadius, loss: bendLoss({ bore, clr, angle, roughness }) };
  });
}

const collectorName = (existing: ExistingManifold, { from }: ExistingPipe): string =>
  'collector' in from ? existing.collectors[from.collector]!.name : '';
