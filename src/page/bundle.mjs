// Bundles what runs in the browser: one self-contained script for each page, the same bytes each time.
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/** Pages, each an entry file beside this one. */
const PAGES = ['book', 'bench'];

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

/** Writes `NAME.js` of every page into a folder. */
export const bundlePages = (folder) =>
  build({
    entryPoints: PAGES.map((name) => here(`./${name}.ts`)),
    outdir: folder,
    bundle: true,
    minify: true,
    format: 'iife',
    target: 'es2022',
    charset: 'ascii',
    legalComments: 'eof',
    tsconfig: here('./tsconfig.json'),
  });

if (process.argv[1] === fileURLToPath(import.meta.url)) await bundlePages(here('../../dist/page'));
