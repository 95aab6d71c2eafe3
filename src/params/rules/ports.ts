import type { PlanFault } from '../faults/plan-problem.js';
import { show } from '../faults/wording.js';
import type { Draft } from '../resolve/draft.js';
import { type PlacedHead, placedHeads } from '../resolve/heads.js';
import { placedPorts } from '../resolve/ports.js';

/** Ports and bolts of all heads together: each cylinder once and of this engine, nothing twice at one place, names apart. */
export function portRules({ sections }: Draft): PlanFault[] {
  const heads = placedHeads(sections);
  const ports = placedPorts(heads);
  const most = sections.engine?.cylinders ?? Number.POSITIVE_INFINITY;
  return [
    ...heads.flatMap((h, i): PlanFault[] => [
      ...sameName(heads, i),
      ...sameAt(h.section.ports, [...h.path, 'ports'], 'port'),
      ...sameAt(h.section.bolts, [...h.path, 'bolts'], 'bolt'),
      ...plugCylinders(h, most),
    ]),
    ...ports.flatMap(({ port, path }, i): PlanFault[] => {
      const field = [...path, 'cylinder'];
      if (port.cylinder > most) {
        return [
          { path: field, message: `expected a cylinder from 1 to ${most} (engine.cylinders), found ${port.cylinder}` },
        ];
      }
      const first = ports.findIndex((p) => p.port.cylinder === port.cylinder);
      if (first === i) return [];
      const other = ports[first]!.path.join('.');
      return [
        { path: field, message: `cylinder ${port.cylinder} has a port already, ${other}; each cylinder has one` },
      ];
    }),
  ];
}

function sameName(heads: readonly PlacedHead[], i: number): PlanFault[] {
  const { name, path } = heads[i]!;
  if (heads.findIndex((h) => h.name === name) === i) return [];
  return [
    { path: [...path, 'name'], message: `the name ${show(name)} is taken by an earlier head; each needs its own` },
  ];
}

function plugCylinders({ section, path }: PlacedHead, most: number): PlanFault[] {
  return section.plugs.flatMap(({ cylinder }, i): PlanFault[] => {
    if (cylinder <= most) return [];
    const message = `expected a cylinder from 1 to ${most} (engine.cylinders), found ${cylinder}`;
    return [{ path: [...path, 'plugs', i, 'cylinder'], message }];
  });
}

/** Nearer than any two ports or bolts can be, mm. */
const SAME_PLACE = 1;

function sameAt(
  things: readonly { readonly at: readonly [number, number] }[],
  path: PlanFault['path'],
  what: string,
): PlanFault[] {
  return things.flatMap(({ at }, i): PlanFault[] => {
    const first = things.findIndex((t) => Math.hypot(t.at[0] - at[0], t.at[1] - at[1]) < SAME_PLACE);
    if (first === i) return [];
    return [
      { path: [...path, i, 'at'], message: `this ${what} stands at the same place as ${[...path, first].join('.')}` },
    ];
  });
}
