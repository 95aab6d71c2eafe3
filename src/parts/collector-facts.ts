import { degrees } from '../geometry/angle.js';
import type { Collector } from './collector.js';
import type { Fact } from './fact.js';

/** A collector's numbers for people. */
export function collectorFacts({ geometry: g, gasVolume }: Collector): readonly Fact[] {
  const mm = (label: string, value: number): Fact => ({ label, value, unit: 'mm', digits: 1 });
  return [
    { label: 'inlets', value: g.inlets, unit: '', digits: 0 },
    mm('inlet bore', 2 * g.bore),
    mm('ring diameter', 2 * g.ringRadius),
    { label: 'merge half-angle', value: degrees(g.mergeHalfAngle), unit: 'deg', digits: 2 },
    mm('merge length', g.mergeLength),
    mm('cone length', g.coneLength),
    mm('tail', g.tail),
    mm('total length', g.totalLength),
    mm('outlet bore', 2 * g.outletBore),
    { label: 'outlet area over one inlet', value: g.area.outletToInlet, unit: '', digits: 3 },
    { label: 'gas volume', value: gasVolume / 1000, unit: 'cm3', digits: 1 },
  ];
}
