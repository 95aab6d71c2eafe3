import { degrees } from '../../geometry/angle.js';
import { angleBetween } from '../../geometry/vec3.js';
import { sizeWords } from '../../params/faults/wording.js';
import type { Plan } from '../../params/plan.js';
import { mitrePattern } from './mitre-patterns.js';
import type { Pattern } from './pattern.js';
import type { Layout } from './wrap.js';

/** Ports tilted by less than this, rad, take a square tube: a twentieth of a degree is 0.04 mm across 45 mm. */
const SQUARE = Math.PI / 3600;

/** The ends of primaries that leave a tilted port: cut parallel to the head face, one pattern for each tilt. */
export function portMitres({ ports, heads, tube }: Pick<Plan, 'ports' | 'heads' | 'tube'>, layout: Layout): Pattern[] {
  const groups = new Map<string, { readonly tilt: number; readonly cylinders: number[] }>();
  for (const port of ports) {
    const tilt = angleBetween(port.frame.z, heads[port.head]!.frame.z);
    if (tilt < SQUARE) continue;
    const key = degrees(tilt).toFixed(3);
    const group = groups.get(key) ?? { tilt, cylinders: [] };
    group.cylinders.push(port.cylinder);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ tilt, cylinders }) =>
    mitrePattern(
      {
        name: `port-${cylinders.join('-')}`,
        title: `Flange end of ${cylinders.length === 1 ? 'primary' : 'primaries'} ${cylinders.join(', ')}`,
        count: cylinders.length,
      },
      tube,
      tilt,
      layout,
      {
        reference: 'long side, away from where the tube leans',
        guide: 'to the head',
        notes: [
          `Tube ${sizeWords([tube.od, tube.wall], layout.units, 2)} leaves the head ${degrees(tilt).toFixed(2)} deg from square: its end is parallel to the head face`,
        ],
      },
    ),
  );
}
