// The stages import in one direction only: each stage may use itself and those listed before it.
const order = ['geometry', 'params', 'tuning', 'routing', 'parts', 'checks', 'export'];

const forward = order.map((stage, i) => ({
  name: `${stage}-imports-only-earlier-stages`,
  severity: 'error',
  from: { path: `^src/${stage}/` },
  to: { path: `^src/(?!${order.slice(0, i + 1).join('/|')}/)` },
}));

module.exports = {
  forbidden: [
    { name: 'no-circle', severity: 'error', from: {}, to: { circular: true } },
    ...forward,
    {
      name: 'pages-import-only-geometry-and-their-data',
      severity: 'error',
      from: { path: '^src/page/' },
      to: { path: '^src/(?!geometry/|page/|export/book/)' },
    },
    {
      name: 'pages-are-bundled-not-imported',
      severity: 'error',
      from: { path: '^src/(?!page/)' },
      to: { path: '^src/page/' },
    },
    {
      name: 'pipeline-below-cli',
      severity: 'error',
      from: { path: '^src/(pipeline|outputs|tune|checked-summary)' },
      to: { path: '^src/cli/' },
    },
    {
      name: 'only-solid-uses-the-boolean-kernel',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/geometry/solid/solid\\.ts$' },
      to: { path: 'manifold-3d' },
    },
    {
      name: 'only-scan-uses-the-tree-of-triangles',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/(geometry/scan/scan\\.ts$|page/)' },
      to: { path: 'node_modules/three' },
    },
    {
      name: 'only-solver-uses-the-milp-library',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/parts/stock/solver\\.ts$' },
      to: { path: 'node_modules/highs' },
    },
    {
      name: 'only-print-3mf-uses-its-library',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/export/print/print-3mf\\.ts$' },
      to: { path: 'node_modules/@3mfconsortium' },
    },
    {
      name: 'disk-only-in-cli',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/cli/' },
      to: { path: '^(node:)?(fs|fs/promises|child_process|net|http|https)$' },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
  },
};
