import type { Mesh } from '../../geometry/mesh/mesh.js';
import type { KeepOut } from '../plan.js';
import type { PlanFile } from '../schema/plan-file.js';
import { inOrder } from './corners.js';

type KeepOutSection = PlanFile['keep_out'][number];

/** What the ground is called among the keep-outs. */
export const GROUND = 'ground';

/** The keep-outs with their gaps, the ground last. `scans` holds the mesh, in the world, of every entry that names a file. */
export function keepOutsOf(
  file: Pick<PlanFile, 'keep_out' | 'ground' | 'runners'>,
  scans: ReadonlyMap<number, Mesh>,
): readonly KeepOut[] {
  const { clearance: usual, heat_distance } = file.runners;
  const gapOf = (k: KeepOutSection): number => Math.max(k.clearance ?? usual, k.heat ? heat_distance : 0);
  const keepOuts = file.keep_out.map((k, i) => keepOutOf(k, gapOf(k), scans.get(i)));
  if (file.ground === undefined) return keepOuts;
  const ground = { name: GROUND, clearance: usual, heat: false, kind: 'half-space' } as const;
  return [...keepOuts, { ...ground, point: [0, file.ground, 0], normal: [0, 1, 0] }];
}

function keepOutOf(k: KeepOutSection, clearance: number, mesh: Mesh | undefined): KeepOut {
  const common = { name: k.name, clearance, heat: k.heat };
  switch (k.kind) {
    case 'box':
      return { ...common, kind: k.kind, ...inOrder(k.from, k.to) };
    case 'cylinder':
    case 'capsule':
      return { ...common, kind: k.kind, from: k.from, to: k.to, diameter: k.diameter };
    case 'half_space':
      return { ...common, kind: 'half-space', point: k.point, normal: k.normal };
    case 'mesh':
      if (mesh === undefined) throw new RangeError(`the scan ${k.file} was not read`);
      return { ...common, kind: k.kind, file: k.file, mesh };
  }
}
