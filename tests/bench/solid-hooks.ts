/**
 * Loader for the bench alone: the compiled kernel files tell which solids are built and what their leaves were made of, so that
 * other kernels can build the same parts from the same description. The program's own files stay as they are.
 */
const told: readonly (readonly [file: string, from: string, to: string])[] = [
  [
    'geometry/solid/solid.js',
    'export function evaluate(solid, tolerance = 0) {',
    'export function evaluate(solid, tolerance = 0) {\n    globalThis.solidsBuilt?.push(solid);',
  ],
  [
    'geometry/sweep/sweep.js',
    'return meshFromGeom3(throughSlices(rings));',
    "return Object.assign(meshFromGeom3(throughSlices(rings)), { madeAs: { kind: 'sweep', path, radius } });",
  ],
  [
    'geometry/solid/solid-shapes.js',
    'return solidOf(meshFromGeom3(cuboid({ size, center })));',
    "return solidOf(Object.assign(meshFromGeom3(cuboid({ size, center })), { madeAs: { kind: 'loft', sections: [low[2], high[2]].map((z) => ({ z, points: [[low[0], low[1]], [high[0], low[1]], [high[0], high[1]], [low[0], high[1]]] })) } }));",
  ],
  [
    'geometry/solid/solid-shapes.js',
    'return solidOf(meshFromGeom3(throughSlices(slices)));',
    "return solidOf(Object.assign(meshFromGeom3(throughSlices(slices)), { madeAs: { kind: 'loft', sections } }));",
  ],
  [
    'geometry/solid/solid-shapes.js',
    'const raised = solidOf(meshFromGeom3(extrudeLinear({ height: to - from }, flat)));',
    "const raised = solidOf(Object.assign(meshFromGeom3(extrudeLinear({ height: to - from }, flat)), { madeAs: { kind: 'loft', sections: [0, to - from].map((z) => ({ z, points: ccw })) } }));",
  ],
];

interface Loaded {
  readonly source?: unknown;
}

export async function load(
  url: string,
  context: object,
  next: (url: string, context: object) => Promise<Loaded>,
): Promise<Loaded> {
  const loaded = await next(url, context);
  const own = told.filter(([file]) => url.endsWith(`/src/${file}`));
  if (own.length === 0) return loaded;
  let source = new TextDecoder().decode(loaded.source as Uint8Array);
  for (const [file, from, to] of own) {
    if (!source.includes(from)) throw new Error(`${file} no longer has: ${from}`);
    source = source.replace(from, to);
  }
  return { ...loaded, source };
}
