import { degrees } from '../geometry/angle.js';
import { endOf, startOf } from '../geometry/path/path.js';
import { angleBetween, distance } from '../geometry/vec3.js';
import { type LengthWords, lengthsIn } from '../params/faults/wording.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** How far a tube's end may stand from its port or inlet, mm, and lean from its axis, deg: what a tack can take up. */
const PLACE = 0.5;
const LEAN = 0.5;

/** Both ends of every tube against the port or outlet and the inlet they belong to. Routes found here meet them by construction. */
export function routeEnds({ plan, problem, primaries, secondaries }: CheckContext): Finding[] {
  const words = lengthsIn(plan.units);
  return [...primaries, ...secondaries].flatMap((p) => {
    const runner = problem.runners.find((r) => r.id === p.id)!;
    const inlet = problem.collectors[p.collector]!.inlets[p.inlet - 1]!;
    const start = startOf(p.path);
    const end = endOf(p.path);
    return [
      placed(`${p.name} at its start`, distance(start.point, runner.start.origin), words),
      leaning(`${p.name} at its start`, degrees(angleBetween(start.direction, runner.start.z))),
      placed(`${p.name} at inlet ${p.inlet}`, distance(end.point, inlet.origin), words),
      leaning(`${p.name} at inlet ${p.inlet}`, degrees(angleBetween(end.direction, inlet.z))),
    ];
  });
}

const placed = (place: string, value: number, words: LengthWords): Finding => ({
  id: 'route.end-place',
  level: value <= PLACE ? 'ok' : 'fail',
  place,
  value,
  limit: PLACE,
  unit: 'mm',
  message: `The tube's end stands ${words(value, 3)} from where it belongs.`,
});

const leaning = (place: string, value: number): Finding => ({
  id: 'route.end-direction',
  level: value <= LEAN ? 'ok' : 'fail',
  place,
  value,
  limit: LEAN,
  unit: 'deg',
  message: `The tube's end leans ${value.toFixed(3)} deg from the axis it should meet.`,
});
