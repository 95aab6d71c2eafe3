import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { MainModule } from 'clipper2-wasm/dist/clipper2z.js';
import { flattenOutline } from '../../src/geometry/outline/flatten.js';
import type { Outline } from '../../src/geometry/outline/outline.js';

type Load = (options: { readonly wasmBinary: Uint8Array }) => Promise<MainModule>;

const require = createRequire(import.meta.url);

const clipper = (require('clipper2-wasm/dist/umd/clipper2z.js') as Load)({
  wasmBinary: readFileSync(require.resolve('clipper2-wasm/dist/umd/clipper2z.wasm')),
});

/** Chord error of the polygons that stand for outlines, mm. */
export const POLYGON_CHORD = 1e-4;

/** Decimals clipper keeps of a millimetre. */
const DECIMALS = 6;

/** Area of the union of outlines, mm2, by another kernel than ours: polygons of fine chords, joined by Clipper2. */
export const clipperUnionArea = (outlines: readonly Outline[]): Promise<number> =>
  measured(outlines, (c, paths) => c.UnionSelfD(paths, c.FillRule.NonZero, DECIMALS));

/** Area of an outline's offset, mm2, by Clipper2 with round joins. */
export const clipperOffsetArea = (outline: Outline, distance: number): Promise<number> =>
  measured([outline], (c, paths) =>
    c.InflatePathsD(paths, distance, c.JoinType.Round, c.EndType.Polygon, 2, DECIMALS, POLYGON_CHORD),
  );

type Paths = InstanceType<MainModule['PathsD']>;

async function measured(outlines: readonly Outline[], work: (c: MainModule, paths: Paths) => Paths): Promise<number> {
  const c = await clipper;
  const paths = new c.PathsD();
  for (const outline of outlines) {
    const path = c.MakePathD(flattenOutline(outline, POLYGON_CHORD).flat());
    paths.push_back(path);
    path.delete();
  }
  const result = work(c, paths);
  const area = c.AreaPathsD(result);
  result.delete();
  paths.delete();
  return area;
}
