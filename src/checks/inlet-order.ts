import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** Routes given by hand against the order the plan asks of each collector's inlets. Routes found here keep it. */
export function inletOrder({ problem }: CheckContext): Finding[] {
  return problem.collectors.map((c) => ({
    id: 'collector.order',
    level: c.allowed.asPlanned ? 'ok' : 'fail',
    place: c.name,
    value: c.allowed.asPlanned ? 0 : 1,
    limit: 0,
    unit: 'count',
    message: c.allowed.asPlanned
      ? 'The primaries meet the inlets in an allowed order.'
      : 'The routes given by hand meet the inlets in another order than the plan asks for.',
  }));
}
