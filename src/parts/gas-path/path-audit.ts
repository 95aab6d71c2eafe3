import { type BendLoss, sumOfLosses } from './bend-loss.js';
import {
  coneSkin,
  conesOf,
  coneVolume,
  type GasJoint,
  type GasStation,
  type GasSystem,
  type GasWay,
  type WayBend,
} from './gas-way.js';
import { heatLoss } from './wall-heat.js';

/** The way from one valve to the end of the exhaust, measured. mm, mm2, mm3. */
export interface CylinderAudit {
  readonly cylinder: number;
  /** From the valve to the first joint, or the end where there is none. */
  readonly runner: number;
  /** From the valve to the end, joints not counted. */
  readonly length: number;
  /** Of the runner, to the first joint. */
  readonly runnerVolume: number;
  /** Of every way and joint from the valve to the end. */
  readonly volume: number;
  /** Everything in connection before the end: what a pulse fills before it presses on a turbine. */
  readonly connectedVolume: number;
  /** The same if the ways of all ends were one: an open housing. */
  readonly openVolume: number;
  readonly stations: readonly StationAudit[];
  readonly worst: StationAudit | null;
  /** Least inside radius over bore, of all its bends; null where it has none. */
  readonly tightest: number | null;
  readonly bends: number;
  readonly bendLoss: BendLoss;
}

/** How the area changes from one station to the next. */
export interface StationAudit extends GasStation {
  readonly way: string;
  /** Area over that of the station before, less one: above zero growth, below zero contraction. */
  readonly change: number;
}

/** A whole exhaust, measured: mm3, mm2, W, kg. */
export interface PathAudit {
  readonly system: string;
  readonly cylinders: readonly CylinderAudit[];
  readonly volume: number;
  /** Outside of the metal, the head and the flanges left aside. */
  readonly surface: number;
  /** Given to the surroundings at the stated skin temperature. */
  readonly heat: number;
  readonly mass: number;
  /** Inlets of a turbine the ways end at; null without a turbine. */
  readonly turbineInlets: number | null;
  readonly notes: readonly string[];
}

/** Measures a gas system: volumes as cones between stations, bends by three books, metal by its wall. */
export function auditOf(system: GasSystem): PathAudit {
  const { ways, joints } = system;
  const metal = metalOf(ways, joints, system.density);
  const volume = sum(ways.map(wayVolume)) + sum(joints.map((j) => j.volume));
  const cylinders = ways
    .flatMap((w) => ('cylinder' in w.from ? [w.from.cylinder] : []))
    .sort((a, b) => a - b)
    .map((cylinder) => cylinderAudit(system, cylinder, volume));
  return {
    system: system.name,
    cylinders,
    volume,
    ...metal,
    turbineInlets: system.end.kind === 'turbine' ? ways.filter((w) => w.to === 'end').length : null,
    notes: system.notes,
  };
}

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/** Volume of a way, mm3. */
const wayVolume = (way: GasWay): number => sum(conesOf(way.stations).map(coneVolume));

function cylinderAudit(system: GasSystem, cylinder: number, whole: number): CylinderAudit {
  const chain = chainFrom(system, cylinder);
  const joints = chain.flatMap((w) => (w.to === 'end' ? [] : [system.joints[w.to.joint]!]));
  const stations = stationChanges(chain);
  const bends = chain.flatMap((w) => w.bends);
  return {
    cylinder,
    runner: chain[0]!.length,
    length: sum(chain.map((w) => w.length)),
    runnerVolume: wayVolume(chain[0]!),
    volume: sum(chain.map(wayVolume)) + sum(joints.map((j) => j.volume)),
    connectedVolume: connectedVolume(system, chain.at(-1)!),
    openVolume: whole,
    stations,
    worst: stations.reduce<StationAudit | null>((a, s) => (s.change < Math.min(a?.change ?? 0, -1e-9) ? s : a), null),
    tightest: bends.length === 0 ? null : Math.min(...bends.map(radiusOverBore)),
    bends: bends.length,
    bendLoss: sumOfLosses(bends.map((b) => b.loss)),
  };
}

const radiusOverBore = ({ insideRadius, bore }: WayBend): number => insideRadius / bore;

/** The ways from a cylinder's valve to the end, in order. */
function chainFrom({ ways }: GasSystem, cylinder: number): GasWay[] {
  const chain = [ways.find((w) => 'cylinder' in w.from && w.from.cylinder === cylinder)!];
  for (;;) {
    const { to } = chain.at(-1)!;
    if (to === 'end') return chain;
    chain.push(ways.find((w) => 'joint' in w.from && w.from.joint === to.joint)!);
  }
}

/** Volume of all that opens into the way that ends there. */
function connectedVolume(system: GasSystem, last: GasWay): number {
  const reached: GasWay[] = [last];
  const joints = new Set<number>();
  for (const way of reached) {
    if ('cylinder' in way.from || joints.has(way.from.joint)) continue;
    const { joint } = way.from;
    joints.add(joint);
    reached.push(...system.ways.filter((w) => w.to !== 'end' && w.to.joint === joint));
  }
  return sum(reached.map(wayVolume)) + sum([...joints].map((j) => system.joints[j]!.volume));
}

/** Stations of a chain of ways with what each does to the area before it; a change of nothing within a part is left out. */
function stationChanges(chain: readonly GasWay[]): StationAudit[] {
  let run = 0;
  const found: StationAudit[] = [];
  for (const way of chain) {
    way.stations.forEach((s, i) => {
      const before = i === 0 ? null : way.stations[i - 1]!;
      // what runs into a joint opens into its volume: no change of one pipe
      const change = before === null ? 0 : s.area / before.area - 1;
      found.push({ ...s, at: s.at + run, way: way.name, change });
    });
    run += way.length;
  }
  return found;
}

function metalOf(
  ways: readonly GasWay[],
  joints: readonly GasJoint[],
  density: number,
): Pick<PathAudit, 'surface' | 'heat' | 'mass'> {
  let [surface, heat, metal] = [0, 0, 0];
  for (const way of ways) {
    for (const { from, to, wall } of way.metal) {
      for (const cone of conesOf(way.stations, from, to)) {
        const skin = coneSkin(cone, wall);
        surface += skin;
        heat += heatLoss(skin, way.heatShare);
        metal += coneSkin(cone, wall / 2) * wall;
      }
    }
  }
  const share = ways[0]?.heatShare ?? 1;
  for (const j of joints) {
    surface += j.surface;
    heat += heatLoss(j.surface, share);
    metal += j.surface * j.wall;
  }
  return { surface, heat, mass: metal * 1e-9 * density };
}
