import type { PathSegment } from '../../geometry/path/path.js';
import { along } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import { cylinderOf } from '../../parts/tube/pieces.js';
import type { TubeCuts } from '../../parts/tube/tube-cuts.js';
import type { RoutedTube } from '../../routing/routed.js';
import type { SceneSegment, SceneTube } from './scene-data.js';

/** A tube as a page draws it, with its pieces and joints. */
export function sceneTube(plan: Plan, tube: RoutedTube, cuts: TubeCuts): SceneTube {
  const cylinder = cylinderOf(tube);
  return {
    id: tube.id,
    name: tube.name,
    cylinder,
    collector: plan.collectors[tube.collector]!.name,
    inlet: tube.inlet,
    length: tube.length,
    target: tube.target,
    tolerance: cylinder === null ? (plan.secondaries?.tolerance ?? 0) : plan.runners.tolerance,
    segments: tube.path.segments.map(sceneSegment),
    sections: tube.sections.map(({ from, od, wall }) => ({ from, od, wall })),
    pieces: cuts.pieces.map(({ piece }) => ({ name: piece.name, from: piece.fromRun, to: piece.toRun })),
    joints: cuts.joints.map((j) => ({ name: j.name, at: j.run })),
  };
}

const sceneSegment = (s: PathSegment): SceneSegment =>
  s.kind === 'straight'
    ? { kind: 'straight', from: s.from, to: along(s.from, s.direction, s.length) }
    : { kind: 'bend', from: s.from, along: s.direction, centre: s.centre, axis: s.normal, clr: s.clr, angle: s.angle };
