import { thinnedMesh } from '../../geometry/mesh/thin.js';
import { pointIn, segmentLength } from '../../geometry/path/path.js';
import { evaluate, solidOf } from '../../geometry/solid/solid.js';
import { CHORD_ERROR } from '../../geometry/tolerance.js';
import { distance, type Vec3 } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import type { FlangePart } from '../../parts/flange/flange.js';
import { type SolidPart, servesOnBench } from '../../parts/part.js';
import { placedMesh } from '../../parts/printed-part.js';
import { cutsOf, type TubeCuts } from '../../parts/tube/tube-cuts.js';
import type { Gap } from '../../routing/clearance.js';
import type { KeptOut } from '../../routing/problem.js';
import type { RoutedPrimary, RoutedSecondary } from '../../routing/routed.js';
import { packMesh } from './packed-mesh.js';
import type { SceneData, SceneSolid } from './scene-data.js';
import { sceneGaps } from './scene-gaps.js';
import { collectorSolids, type Drawn, flangeSolids, headSolids, plateSolids } from './scene-metal.js';
import { accessSolids, type Extent, keepOutSolids, SPACE_ERROR, scansOf } from './scene-space.js';
import { sceneTube } from './scene-tubes.js';

/** What a picture of a routed header is made of. */
export interface RoutedParts {
  readonly plan: Plan;
  readonly problem: { readonly keptOut: readonly KeptOut[] };
  readonly primaries: readonly RoutedPrimary[];
  readonly secondaries: readonly RoutedSecondary[];
  readonly gaps: readonly Gap[];
  readonly flanges: readonly FlangePart[];
}

/** And of one with everything that is made for it. */
export interface BuiltParts extends RoutedParts {
  readonly cuts: readonly TubeCuts[];
  readonly jigs: readonly SolidPart[];
}

/** How a kind of solid is drawn, mm: its surface moved by `simplify` at most for fewer facets, its points on a grid of `step`. */
interface Detail {
  readonly chord: number;
  readonly simplify: number;
  readonly step: number;
}

const METAL: Detail = { chord: CHORD_ERROR, simplify: 0.02, step: 0.02 };
const SPACE: Detail = { chord: SPACE_ERROR, simplify: 0.1, step: 0.1 };
/** Letters on a jig stand out by about as much: they stay readable, and a mock-up takes a few hundred kilobytes. */
const JIG: Detail = { chord: CHORD_ERROR, simplify: 0.5, step: 0.1 };

/** Most triangles of each scan. */
const MOST_SCAN_TRIANGLES = 12_000;
const SCAN_STEP = 0.25;

/** A header as a page draws it: tubes, metal, kept-out space and jigs where they stand in the assembly. */
export function sceneOf(built: BuiltParts): SceneData {
  const scene = sceneWith(built, built.cuts);
  return { ...scene, solids: [...scene.solids, ...built.jigs.map(jigSolid)] };
}

/** A header as a page draws it without jigs: what can be had soon after routing, while a plan is shaped. */
export const routedScene = (routed: RoutedParts): SceneData =>
  sceneWith(
    routed,
    [...routed.primaries, ...routed.secondaries].map((t) => cutsOf(routed.plan, t)),
  );

function sceneWith(routed: RoutedParts, cuts: readonly TubeCuts[]): SceneData {
  const { plan, problem, primaries, secondaries, gaps, flanges } = routed;
  const tubes = [...primaries, ...secondaries];
  const metal = [...headSolids(plan), ...flangeSolids(plan, flanges), ...collectorSolids(plan), ...plateSolids(plan)];
  const space = [...keepOutSolids(plan, extentOf(routed)), ...accessSolids(plan)];
  return {
    schema: 'evenrun-scene-1',
    name: plan.name,
    units: plan.units,
    tubes: tubes.map((t) => sceneTube(plan, t, cuts.find((c) => c.tube === t.id)!)),
    solids: [...metal.map((d) => solidAs(d, METAL)), ...space.map((d) => solidAs(d, SPACE)), ...scanSolids(plan)],
    gaps: sceneGaps(gaps, tubes, problem.keptOut),
  };
}

function solidAs({ kind, name, title, solid }: Drawn, { chord, simplify, step }: Detail): SceneSolid {
  const mesh = evaluate(solid, simplify);
  return { kind, name, title, mesh: packMesh(mesh, step, chord + simplify + offGrid(step)) };
}

function jigSolid(part: SolidPart): SceneSolid {
  const kind = servesOnBench(part) ? 'bench-jig' : 'jig';
  const solid = solidOf(placedMesh(part.mesh, part.pose));
  return solidAs({ kind, name: `jig-${part.name}`, title: part.title, solid }, JIG);
}

const scanSolids = (plan: Plan): SceneSolid[] =>
  scansOf(plan).map(({ name, title, scan }) => {
    const { mesh, moved } = thinnedMesh(scan.mesh, MOST_SCAN_TRIANGLES);
    return { kind: 'scan', name, title, mesh: packMesh(mesh, SCAN_STEP, moved + offGrid(SCAN_STEP)) };
  });

/** How far a point is from the nearest of a cubic grid at most, mm. */
const offGrid = (step: number): number => (step * Math.sqrt(3)) / 2;

function extentOf({ plan, primaries, secondaries }: RoutedParts): Extent {
  const points = [...primaries, ...secondaries].flatMap((t) =>
    t.path.segments.flatMap((s) => [pointIn(s, 0), pointIn(s, segmentLength(s))]),
  );
  const all = [...points, ...plan.collectors.map((c) => c.frame.origin)];
  const middle = [0, 1, 2].map((k) => {
    const values = all.map((p) => p[k]!);
    return (Math.min(...values) + Math.max(...values)) / 2;
  }) as unknown as Vec3;
  return { middle, reach: Math.max(...all.map((p) => distance(p, middle))) };
}
