import type { CollectorPlan, Engine } from '../params/plan.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** One turn of the crank, deg: half of the four-stroke cycle. */
const TURN = 360;

/**
 * Pairs of a 4-2-1: two cylinders whose pulses meet in a collector that feeds another should fire a full turn of the crank apart,
 * half the cycle of an engine that fires evenly. Common practice, no source.
 */
export function pairing({ plan }: CheckContext): Finding[] {
  const fed = new Set(plan.collectors.flatMap((c) => c.from));
  return plan.collectors
    .filter((c) => c.cylinders.length === 2 && fed.has(c.name))
    .map((c) => pairFinding(c, plan.engine));
}

function pairFinding({ name, cylinders }: CollectorPlan, { cylinders: count, firingOrder }: Engine): Finding {
  const [a, b] = cylinders as [number, number];
  const apart = Math.abs(firingOrder.indexOf(a) - firingOrder.indexOf(b));
  // the shorter way round the cycle: the longer says the same of the next firing
  const value = (Math.min(apart, count - apart) * 2 * TURN) / count;
  const holds = Math.abs(value - TURN) < 1e-9;
  return {
    id: 'collector.pairing',
    level: holds ? 'ok' : 'warn',
    place: name,
    value,
    limit: TURN,
    unit: 'deg',
    message: holds
      ? `Cylinders ${a} and ${b} fire ${TURN} deg of crank apart.`
      : `Cylinders ${a} and ${b} fire ${value.toFixed(0)} deg of crank apart, if the engine fires evenly; pairs are best ${TURN} deg apart: pair others by the firing order.`,
  };
}
