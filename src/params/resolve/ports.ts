import { directionFrom, frameFacing, pointFrom } from '../../geometry/frame.js';
import type { PlanPath } from '../faults/plan-problem.js';
import type { Port } from '../plan.js';
import type { PlacedHead } from './heads.js';

/** A port with the path of its entry in the file. */
export interface PlacedPort {
  readonly port: Port;
  readonly path: PlanPath;
}

/** Every port of every head, in the order of the file. Its frame stands on the face, z along the gas, y as near as can be to the head's y. */
export function placedPorts(heads: readonly PlacedHead[]): readonly PlacedPort[] {
  return heads.flatMap(({ frame, section, path }, head) =>
    section.ports.map((p, i) => ({
      path: [...path, 'ports', i],
      port: {
        cylinder: p.cylinder,
        head,
        at: p.at,
        frame: frameFacing(pointFrom(frame, [...p.at, 0]), directionFrom(frame, p.direction), frame.y),
        outline: p.shape.outline,
        shape: p.shape.words,
        lengthInHead: p.length_in_head ?? null,
      },
    })),
  );
}
