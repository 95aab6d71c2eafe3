import type { Plan } from '../../params/plan.js';
import type { RoutedTube } from '../../routing/routed.js';
import { type CutPiece, cutPiecesOf } from './cut-list.js';
import type { Joint } from './joint.js';
import { jointsOf } from './joints.js';
import { piecesOf } from './pieces.js';

/** One tube as it is cut and put together, mm. */
export interface TubeCuts {
  /** The tube's id: cylinder number, or the collector a secondary comes from. */
  readonly tube: string;
  /** 'cylinder 2'. */
  readonly name: string;
  /** In order from the head. */
  readonly pieces: readonly CutPiece[];
  /** One more than pieces: from where the tube starts to the collector inlet. */
  readonly joints: readonly Joint[];
  /** From the head face to where the first piece starts; 0 for a secondary. */
  readonly start: number;
  /** `start`, the pieces as cut, and what gaps less shrinkage add at the butt joints. */
  readonly total: number;
  /** Centreline length of the route. */
  readonly length: number;
  /** Length it should have, mm. */
  readonly target: number;
}

/** What the joints of a tube add to its length, mm: gap less shrinkage of every one. */
export const allowances = (joints: readonly Joint[]): number => joints.reduce((sum, j) => sum + j.gap - j.shrinkage, 0);

/** A tube in pieces and joints, with its length as it is put together. */
export function cutsOf(plan: Plan, tube: RoutedTube): TubeCuts {
  const own = piecesOf(plan, tube);
  const joints = jointsOf(plan, tube, own);
  const pieces = cutPiecesOf(own, joints);
  const start = own[0]!.fromRun;
  return {
    tube: tube.id,
    name: tube.name,
    pieces,
    joints,
    start,
    total: pieces.reduce((sum, c) => sum + c.cutLength, start) + allowances(joints),
    length: tube.length,
    target: tube.target,
  };
}
