import type { ExhaustEnd, ExhaustPipe, ExhaustSystem } from '../../tuning/exhaust-system.js';
import { lossBeyondFriction } from './bend-loss.js';
import type { GasStation, GasSystem, GasWay } from './gas-way.js';

/** The ways of the gas as the calculation takes them: SI units, the middle of three books for every bend, less the friction that the calculation reckons itself. */
export const exhaustSystemOf = (system: GasSystem): ExhaustSystem => ({
  name: system.name,
  pipes: system.ways.map(pipeOf),
  joints: system.joints.map((j) => ({ name: j.name, volume: j.volume * 1e-9 })),
  end: endOf(system),
});

const pipeOf = (way: GasWay): ExhaustPipe => ({
  name: way.name,
  from: way.from,
  to: way.to,
  length: way.length * 1e-3,
  stations: blended(way.stations).map((s) => ({ at: s.at * 1e-3, area: s.area * 1e-6 })),
  bends: way.bends.map((b) => ({ from: b.from * 1e-3, to: b.to * 1e-3, loss: lossBeyondFriction(b.loss) })),
  roughness: way.roughness * 1e-3,
  heatShare: way.heatShare,
});

/** Where head, flange and tube meet the area changes over this length, mm: only a step of the tube is a step to the calculation, so that it can be told apart. */
const BLEND = 1;

function blended(stations: readonly GasStation[]): readonly GasStation[] {
  return stations.map((s, i) => {
    const [before, next] = [stations[i - 1], stations[i + 1]];
    if (before === undefined || before.at < s.at || s.what === 'step') return s;
    const room = next === undefined ? 0 : next.at - s.at;
    return { ...s, at: s.at + Math.min(BLEND, room / 2) };
  });
}

function endOf({ end, ways }: GasSystem): ExhaustEnd {
  if (end.kind === 'open') return { kind: 'open', flanged: false };
  const inlets = ways.filter((w) => w.to === 'end').length;
  const each = (end.area * 1e-6) / inlets;
  return { kind: 'turbine', areas: Array.from({ length: inlets }, () => each), backPressure: end.backPressure };
}
