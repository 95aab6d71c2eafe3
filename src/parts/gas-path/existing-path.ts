import type { Plan } from '../../params/plan.js';
import type { ExistingManifold, ExistingPipe } from '../../params/tuning-plan.js';
import { plateDensity } from '../plate-density.js';
import { bendLoss } from './bend-loss.js';
import { diameterAt, type GasSystem, type GasWay } from './gas-way.js';
import { endOf, portNotes, portStations } from './port-path.js';

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
      surface: Math.PI ** (1 / 3) * (6 * volume) ** (2 / 3),
      wall: existing.wall,
    })),
    end: endOf(plan),
    density: metalDensity(existing.material),
    notes: portNotes(plan),
  };
}

function wayOf(plan: Plan, existing: ExistingManifold, pipe: ExistingPipe): GasWay {
  const cylinder = 'cylinder' in pipe.from ? pipe.from.cylinder : null;
  const port = cylinder === null ? [] : portStations(plan, cylinder);
  const start = port.at(-1)?.at ?? 0;
  const last = pipe.sections.length - 1;
  const own = pipe.sections.map((s, i) => ({
    at: s.at + start,
    area: s.area,
    what: i === 0 ? 'manifold' : i === last ? 'end' : 'section',
  }));
  const stations = [...port, ...own];
  const length = pipe.length + start;
  const { roughness, heatShare, wall } = existing;
  return {
    name: cylinder === null ? `pipe from ${collectorName(existing, pipe)}` : `cylinder ${cylinder}`,
    from: 'cylinder' in pipe.from ? pipe.from : { joint: pipe.from.collector },
    to: pipe.into === null ? 'end' : { joint: pipe.into },
    length,
    stations,
    bends: pipe.bends.map((b) => {
      const from = b.at + start;
      const bore = diameterAt(stations, from);
      const clr = b.insideRadius + bore / 2;
      const loss = bendLoss({ bore, clr, angle: b.angle, roughness });
      return {
        from,
        to: Math.min(length, from + clr * b.angle),
        bore,
        angle: b.angle,
        insideRadius: b.insideRadius,
        loss,
      };
    }),
    roughness,
    heatShare,
    metal: [{ from: start, to: length, wall }],
  };
}

const collectorName = (existing: ExistingManifold, { from }: ExistingPipe): string =>
  'collector' in from ? existing.collectors[from.collector]!.name : '';
