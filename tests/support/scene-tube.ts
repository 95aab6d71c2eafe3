import type { SceneTube } from '../../src/export/book/scene-data.js';
import { sceneTube } from '../../src/export/book/scene-tubes.js';
import { type ControlPolygon, pathFromPolygon } from '../../src/geometry/path/control-polygon.js';
import { type Path, pathLength } from '../../src/geometry/path/path.js';

/** A tube of a scene from its polygon, 42 x 1.5 mm, which grows to 48 x 2 mm from `stepAt` on where that is given. */
export function tubeOf(polygon: ControlPolygon, stepAt: number | null = null, id = '1'): SceneTube {
  const path: Path = pathFromPolygon(polygon);
  const length = pathLength(path);
  const grown = stepAt === null ? [] : [{ from: stepAt, od: 48, wall: 2 }];
  const sections = [{ from: 0, od: 42, wall: 1.5 }, ...grown];
  const routed = { id, name: `cylinder ${id}`, cylinder: Number(id), collector: 0, inlet: 1, path, length, sections };
  const plan = { collectors: [{ name: 'collector' }], runners: { tolerance: 1 }, secondaries: null };
  const cuts = {
    pieces: [
      { piece: { name: `${id}A`, fromRun: 10, toRun: length / 2 } },
      { piece: { name: `${id}B`, fromRun: length / 2, toRun: length } },
    ],
    joints: [{ name: `J${id}.0`, run: 10 }],
  };
  return sceneTube(plan as never, { ...routed, polygon, target: length, givenByHand: true } as never, cuts as never);
}
