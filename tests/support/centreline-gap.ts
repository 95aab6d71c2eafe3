import { pathFromPolygon } from '../../src/geometry/path/control-polygon.js';
import type { Path } from '../../src/geometry/path/path.js';
import type { Obstacle } from '../../src/geometry/space/obstacle.js';
import { type SkinGap, skinGap, skinGapTo, type TubeRun } from '../../src/geometry/space/skin-gap.js';

const bare = (path: Path): TubeRun => ({ path, steps: [{ from: 0, radius: 0 }] });

/** Least distance of two centrelines, mm: the gap of tubes without thickness. */
export const centrelineGap = (a: Path, b: Path, error?: number, minSeparation?: number): SkinGap =>
  skinGap(bare(a), bare(b), error, minSeparation);

/** Least distance of a centreline from an obstacle, mm. */
export const centrelineGapTo = (path: Path, obstacle: Obstacle): SkinGap => skinGapTo(bare(path), obstacle);

/** A U of two quarter bends of 60 mm, its legs 160 mm apart. */
export const U_PATH: Path = pathFromPolygon({
  points: [
    [0, 0, 0],
    [300, 0, 0],
    [300, 160, 0],
    [0, 160, 0],
  ],
  clr: [60, 60],
});
