import { outlineArea } from '../../geometry/outline/measure.js';
import { dot } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import { circleArea, type GasEnd, type GasStation, type WayPart } from './gas-way.js';

/** What the gas leaves the header or the manifold by. */
export const endOf = ({ tuning: { turbine } }: Plan): GasEnd =>
  turbine === null ? { kind: 'open' } : { kind: 'turbine', area: turbine.area, backPressure: turbine.backPressure };

/** The port in the head, of one area: that of its mouth across its axis. One station at the face where its length is not given. */
export function portStations(plan: Plan, cylinder: number): GasStation[] {
  const port = plan.ports.find((p) => p.cylinder === cylinder)!;
  const area = outlineArea(port.outline) * Math.abs(dot(port.frame.z, plan.heads[port.head]!.frame.z));
  const length = port.lengthInHead ?? 0;
  const face = { at: length, area, what: 'head face' };
  return length > 0 ? [{ at: 0, area, what: 'valve' }, face] : [face];
}

/** What is taken for granted of the ports. */
export const portNotes = ({ ports }: Plan): string[] => {
  const without = ports.filter((p) => p.lengthInHead === null).map((p) => p.cylinder);
  return [
    'The port in the head keeps the area of its mouth.',
    ...(without.length > 0
      ? [`The port of cylinder ${without.join(', ')} has no length_in_head: the way begins at the head face.`]
      : []),
  ];
};

/** The pipe behind the last outlet, the same for every exhaust; nothing where the plan has none. */
export function tailpipe({ tuning: { tailpipe: pipe } }: Plan): WayPart {
  if (pipe === null) return { length: 0, stations: [], bends: [], metal: [] };
  const area = circleArea(pipe.bore);
  return {
    length: pipe.length,
    stations: [
      { at: 0, area, what: 'tailpipe' },
      { at: pipe.length, area, what: 'end of the tailpipe' },
    ],
    bends: [],
    metal: [],
  };
}

/** What is taken for granted of the end. */
export const endNotes = ({ tuning }: Plan): string[] => [
  tuning.turbine !== null
    ? 'The turbine is a nozzle of one area, the same for every exhaust; the intake is taken without boost, so judge a turbine by the energy it is offered and not by the overlap.'
    : tuning.tailpipe === null
      ? 'Behind the outlet is the open air: no tailpipe is given under tuning.tailpipe.'
      : 'The tailpipe is the same for every exhaust, and behind it is the open air.',
];
