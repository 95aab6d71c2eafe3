import type { PlanFault } from '../faults/plan-problem.js';
import { either, show } from '../faults/wording.js';
import type { Draft } from '../resolve/draft.js';
import { placedHeads } from '../resolve/heads.js';
import { placedPorts } from '../resolve/ports.js';

/** What a tuned length is reckoned from must be given; the existing manifold must serve the ports of the plan. */
export const tuningRules = (draft: Draft): PlanFault[] => [
  ...tunedLength(draft),
  ...existingRunners(draft),
  ...existingJoins(draft),
];

function tunedLength({ sections }: Draft): PlanFault[] {
  const { runners, engine, tuning } = sections;
  if (runners?.length !== 'tuned') return [];
  const because = 'runners.length tuned is reckoned from it';
  const missing = (path: PlanFault['path'], what: string): PlanFault => ({
    path,
    message: `missing; ${because}: ${what}`,
  });
  return [
    ...(engine !== undefined && engine.cam === undefined
      ? [missing(['engine', 'cam'], 'the valve events in crank degrees')]
      : []),
    ...(engine !== undefined && engine.rpm === undefined && tuning !== undefined && tuning.rpm === undefined
      ? [missing(['engine', 'rpm'], 'an engine speed, or give tuning.rpm')]
      : []),
    ...placedPorts(placedHeads(sections)).flatMap(({ port, path }) =>
      port.lengthInHead === null
        ? [missing([...path, 'length_in_head'], 'the rules count from the valve, the plan from the head face')]
        : [],
    ),
  ];
}

function existingRunners({ sections }: Draft): PlanFault[] {
  const { existing } = sections;
  const cylinders = placedPorts(placedHeads(sections)).map((p) => p.port.cylinder);
  if (existing === undefined || cylinders.length === 0) return [];
  const without = cylinders.filter((c) => !existing.runners.some((r) => r.cylinder === c));
  const faults = existing.runners.flatMap(({ cylinder }, i): PlanFault[] => {
    const path = ['existing', 'runners', i, 'cylinder'];
    if (!cylinders.includes(cylinder)) {
      const ports = either(cylinders.map(String), 'and');
      return [{ path, message: `cylinder ${cylinder} has no port; the ports are of cylinders ${ports}` }];
    }
    if (existing.runners.findIndex((r) => r.cylinder === cylinder) === i) return [];
    return [{ path, message: `cylinder ${cylinder} has a runner already` }];
  });
  if (without.length === 0) return faults;
  const message = `every port needs a runner of the existing manifold; cylinder ${without.join(', ')} has none`;
  return [...faults, { path: ['existing', 'runners'], atKey: true, message }];
}

/** Collectors by their own names, each joined by something and joining only one that comes after it. */
function existingJoins({ sections: { existing } }: Draft): PlanFault[] {
  if (existing === undefined) return [];
  const names = existing.collectors.map((c) => c.name);
  const unknown = (path: PlanFault['path'], name: string | undefined, allowed: readonly string[]): PlanFault[] =>
    name === undefined || allowed.includes(name)
      ? []
      : [
          {
            path,
            message: `expected ${allowed.length === 0 ? 'none, the last collector ends in the outlet' : either(allowed.map(show))}, found ${show(name)}`,
          },
        ];
  return [
    ...existing.runners.flatMap((r, i) => unknown(['existing', 'runners', i, 'into'], r.into, names)),
    ...existing.collectors.flatMap((c, i): PlanFault[] => {
      const path = ['existing', 'collectors', i];
      if (names.indexOf(c.name) !== i) {
        return [{ path: [...path, 'name'], message: `the name ${show(c.name)} is taken by an earlier collector` }];
      }
      const joined =
        existing.runners.some((r) => (r.into ?? names[0]) === c.name) ||
        existing.collectors.some((o) => o.into === c.name);
      return [
        ...unknown([...path, 'into'], c.into, names.slice(i + 1)),
        ...(joined
          ? []
          : [{ path: [...path, 'name'], message: `nothing joins ${show(c.name)}: name it under into of a runner` }]),
      ];
    }),
  ];
}
