import { circleArea, coneVolume, diameterOf, type GasSystem, type GasWay } from './gas-way.js';

/** Length of the common inlet of an open housing, mm: about what a turbine's flange and throat take. */
const INLET = 40;

/**
 * A divided turbine's header with an open housing instead: the ways that ended at their own inlets join just before one inlet of all
 * their areas together. Everything else stays.
 */
export function openHousing(system: GasSystem): GasSystem {
  const ends = system.ways.filter((w) => w.to === 'end');
  const areas = ends.map((w) => w.stations.at(-1)!.area);
  const area = areas.reduce((a, b) => a + b, 0);
  const joint = system.joints.length;
  const d = diameterOf(area);
  const inlet: GasWay = {
    name: 'open housing',
    from: { joint },
    to: 'end',
    length: INLET,
    stations: [
      { at: 0, area, what: 'housing' },
      { at: INLET, area, what: 'end' },
    ],
    bends: [],
    roughness: ends[0]!.roughness,
    heatShare: ends[0]!.heatShare,
    metal: [],
  };
  const ways = system.ways.map((w): GasWay => (w.to === 'end' ? { ...w, to: { joint } } : w));
  const volume = coneVolume({ length: INLET, from: d, to: d });
  return {
    ...system,
    name: 'open housing',
    ways: [...ways, inlet],
    joints: [...system.joints, { name: 'housing', volume, surface: circleArea(d), wall: 0 }],
    notes: [...system.notes, `The open housing is a common inlet of ${INLET} mm and all areas together.`],
  };
}
