import { readFileSync } from 'node:fs';
import type { Plan } from '../../src/params/plan.js';
import { readPlan } from '../../src/params/read-plan.js';
import { type RoutedHeader, routeHeader } from '../../src/pipeline.js';
import { TEMPLATE_FOLDER } from './command.js';

/** The plan of a starter. */
export function starterPlan(name: string): Plan {
  const read = readPlan(readFileSync(`${TEMPLATE_FOLDER}${name}.yaml`, 'utf8'), name, (file) =>
    readFileSync(`${TEMPLATE_FOLDER}${file}`),
  );
  if (!read.ok) throw new Error(read.text);
  return read.plan;
}

/** A starter, routed. */
export function routedStarter(name: string): RoutedHeader {
  const routing = routeHeader(starterPlan(name));
  if (!routing.ok) throw new Error(JSON.stringify(routing.miss));
  return routing.header;
}
