import { describe, expect, it } from 'vitest';
import { unpackMesh } from '../../../src/export/book/packed-mesh.js';
import { routedScene, sceneOf } from '../../../src/export/book/scene.js';
import type { SceneData, SceneKind } from '../../../src/export/book/scene-data.js';
import type { Frame } from '../../../src/geometry/frame.js';
import { meshBounds } from '../../../src/geometry/mesh/measure.js';
import type { Mesh } from '../../../src/geometry/mesh/mesh.js';
import { distance, sub } from '../../../src/geometry/vec3.js';
import { mockUpOf } from '../../../src/parts/jigs/jigs.js';
import { placedMesh } from '../../../src/parts/printed-part.js';
import { cutsOf } from '../../../src/parts/tube/tube-cuts.js';
import { routeHeader } from '../../../src/pipeline.js';
import { HARD_LAYOUTS } from '../../support/hard-layouts.js';
import { planOfFile } from '../../support/layouts.js';
import { routedStarter } from '../../support/starter.js';
import { wavyWall } from '../../support/wavy-wall.js';

const header = routedStarter('inline-four');
const { plan } = header;
const cuts = header.primaries.map((t) => cutsOf(plan, t));
const jigs = mockUpOf(header).parts;
const scene = sceneOf({ ...header, cuts, jigs });
const routed = routedScene(header);

/** A scanned wall, a rod and the ground. */
const { file } = HARD_LAYOUTS.find((l) => l.name === 'a scanned wall in front')!;
const keptOut = {
  ...file,
  keep_out: [
    { name: 'rod', kind: 'capsule', from: [-20, 400, 0], to: [40, 400, 0], diameter: 16 },
    { name: 'ground', kind: 'half_space', point: [0, -700, 0], normal: [0, 1, 0] },
    ...(file as { keep_out: readonly object[] }).keep_out,
  ],
};

const namesOf = (s: SceneData, kind: SceneKind): string[] => s.solids.filter((x) => x.kind === kind).map((x) => x.name);

describe('the scene of a header', () => {
  it('holds every tube exactly, with its pieces and joints', () => {
    expect(scene.tubes.map((t) => t.length)).toEqual(header.primaries.map((p) => p.length));
    for (const [i, tube] of scene.tubes.entries()) {
      const sum = tube.segments.reduce((l, s) => l + (s.kind === 'bend' ? s.clr * s.angle : distance(s.from, s.to)), 0);
      expect(sum).toBeCloseTo(tube.length, 9);
      expect(tube.pieces.map((p) => p.name)).toEqual(cuts[i]!.pieces.map((p) => p.piece.name));
      expect(tube.joints.map((j) => j.at)).toEqual(cuts[i]!.joints.map((j) => j.run));
    }
  });

  it('holds each solid once: ports, flange, collector, kept-out space, tools, jigs', () => {
    expect(namesOf(scene, 'port')).toHaveLength(plan.ports.length);
    expect(namesOf(scene, 'flange')).toEqual(header.flanges.map((f) => f.name));
    expect(namesOf(scene, 'collector')).toHaveLength(1);
    expect(namesOf(scene, 'keep-out')).toHaveLength(plan.keepOuts.length);
    expect(namesOf(scene, 'access')).toHaveLength(plan.access.length);
    expect(namesOf(scene, 'jig')).toHaveLength(jigs.length);
    expect(new Set(scene.solids.map((s) => s.name)).size).toBe(scene.solids.length);
    expect(namesOf(routed, 'jig')).toEqual([]);
    expect(routed.solids).toEqual(scene.solids.filter((s) => s.kind !== 'jig'));
  });

  it('sets jigs where they stand in the assembly, within the error it says', () => {
    for (const part of jigs) {
      const { mesh } = scene.solids.find((s) => s.name === `jig-${part.name}`)!;
      const true_ = meshBounds(placedMesh(part.mesh, part.pose));
      const drawn = meshBounds(unpackMesh(mesh));
      for (let k = 0; k < 3; k++) {
        expect(Math.abs(drawn.low[k]! - true_.low[k]!)).toBeLessThan(mesh.error);
        expect(Math.abs(drawn.high[k]! - true_.high[k]!)).toBeLessThan(mesh.error);
      }
    }
  });

  it('draws the flange as large as it is cut', () => {
    const { mesh } = scene.solids.find((s) => s.kind === 'flange')!;
    const { low, high } = meshBounds(unpackMesh(mesh));
    const [width, height, thickness] = sub(high, low);
    expect(Math.abs(width - header.flanges[0]!.size[0])).toBeLessThan(2 * mesh.error);
    expect(Math.abs(height - header.flanges[0]!.size[1])).toBeLessThan(2 * mesh.error);
    expect(Math.abs(thickness - plan.flange.thickness)).toBeLessThan(2 * mesh.error);
  });

  it('ends every gap on both skins: the ends stand as far apart as the gap', () => {
    expect(scene.gaps).toHaveLength(header.gaps.length);
    for (const g of scene.gaps) expect(distance(g.from, g.to)).toBeCloseTo(Math.abs(g.value), 2);
    const tubesToo = scene.gaps.filter((g) => g.kind === 'tubes').map((g) => g.tubes.length);
    expect(new Set(tubesToo)).toEqual(new Set([2]));
  });

  it('sets a plate on the end of the outlet it is for, and a sleeve over the last of it', () => {
    const common = {
      feeds: [plan.collectors[0]!.name],
      count: 1,
      thickness: 12,
      material: 'mild steel',
      edge: 6,
    } as const;
    const more = { throatEdge: 6, web: 6, fillet: null, gasket: false } as const;
    const bolts = { thread: 'M8', holeDiameter: 9 };
    const throat = { kind: 'round', diameter: 50 } as const;
    const round = { kind: 'round', bolts, count: 4, boltCircle: 100, clocking: 0, throat, od: null } as const;
    const sleeve = { kind: 'slip_joint', tubeOd: 60, wall: 1.5, overlap: 40, fit: 0.3 } as const;
    const plates = [
      { name: 'outlet plate', ...common, ...more, pattern: round },
      { name: 'sleeve', ...common, ...more, pattern: sleeve },
    ];
    const drawn = routedScene({ ...header, plan: { ...plan, plates } }).solids.filter((s) => s.kind === 'plate');
    expect(drawn.map((s) => s.title)).toEqual(['outlet plate', 'sleeve']);
    const { frame } = plan.collectors[0]!;
    const collector = unpackMesh(scene.solids.find((s) => s.kind === 'collector')!.mesh);
    const [, end] = alongAxis(collector, frame);
    for (const [i, reach] of [
      [0, [end, end + 12]],
      [1, [end - 40, end]],
    ] as const) {
      const found = alongAxis(unpackMesh(drawn[i]!.mesh), frame);
      for (const [k, v] of found.entries()) expect(Math.abs(v - reach[k]!)).toBeLessThan(0.1);
    }
  });

  it('gives the same text again, and takes little of the room a page has', () => {
    const text = JSON.stringify(scene);
    expect(JSON.stringify(sceneOf({ ...header, cuts, jigs }))).toBe(text);
    expect(text.length).toBeLessThan(450_000);
    expect(JSON.stringify(routed).length).toBeLessThan(120_000);
  });
});

/** From where to where a mesh reaches along the z of a frame, mm. */
function alongAxis({ positions }: Mesh, { origin, z }: Frame): [from: number, to: number] {
  const at = Array.from({ length: positions.length / 3 }, (_, i) =>
    [0, 1, 2].reduce((sum, k) => sum + (positions[3 * i + k]! - origin[k]!) * z[k]!, 0),
  );
  return [Math.min(...at), Math.max(...at)];
}

describe('the scene of other headers', () => {
  it('draws planes as pieces, capsules whole and scans thinned', () => {
    const routing = routeHeader(planOfFile(keptOut, 'kept-out', wavyWall()));
    if (!routing.ok) throw new Error('no route');
    const drawn = routedScene(routing.header);
    const boundsOf = (kind: SceneKind, at: number) =>
      meshBounds(unpackMesh(drawn.solids.filter((s) => s.kind === kind)[at]!.mesh));
    const rod = boundsOf('keep-out', 0);
    // a capsule from -20 to 40 along x, 16 across
    for (const [found, expected] of [
      [rod.low, [-28, 392, -8]],
      [rod.high, [48, 408, 8]],
    ] as const) {
      for (const [k, v] of expected.entries()) expect(Math.abs(found[k]! - v)).toBeLessThan(0.6);
    }
    const plane = boundsOf('keep-out', 1);
    expect(Math.abs(plane.high[1] + 700)).toBeLessThan(0.2);
    expect(plane.high[0] - plane.low[0]).toBeLessThan(4000);
    const scan = drawn.solids.find((s) => s.kind === 'scan')!;
    expect(scan.mesh.triangles).toBeGreaterThan(3000);
    expect(scan.mesh.triangles).toBeLessThanOrEqual(12_000);
    expect(scan.title).toBe('keep-out bay wall, scanned');
    for (const g of drawn.gaps) expect(distance(g.from, g.to)).toBeCloseTo(Math.abs(g.value), 1);
  });

  it('bears secondaries, two heads and tubes that grow', () => {
    const four21 = routedScene(routedStarter('inline-four-421'));
    expect(four21.tubes.filter((t) => t.cylinder === null).map((t) => t.name)).not.toHaveLength(0);
    for (const t of four21.tubes) expect(t.joints.at(-1)!.at).toBeCloseTo(t.length, 6);
    const vee = routedScene(routedStarter('v6-twin'));
    expect(namesOf(vee, 'head')).toHaveLength(2);
    const stepped = routedScene(routedStarter('inline-four-stepped'));
    expect(stepped.tubes[0]!.sections.length).toBeGreaterThan(1);
  });
});
