/** `node jigs-run.js build | kernels`: one measurement of the jigs bench in a process of its own; prints JSON. */
import { readFileSync } from 'node:fs';
import serializer from '@jscad/stl-serializer';
import { stlBytes, stlFiles } from '../../src/export/print/stl.js';
import { meshVolume } from '../../src/geometry/mesh/measure.js';
import { snapMesh } from '../../src/geometry/mesh/snap.js';
import { meshFromStl } from '../../src/geometry/mesh/stl-read.js';
import { unpairedEdges } from '../../src/geometry/mesh/validate.js';
import { weldExact } from '../../src/geometry/mesh/weld.js';
import { evaluate } from '../../src/geometry/solid/solid.js';
import { outputsOf } from '../../src/outputs.js';
import { inletTube } from '../../src/params/collector/inlet-tube.js';
import { readPlan } from '../../src/params/read-plan.js';
import { collectorOf } from '../../src/parts/collector/collector.js';
import { mockUpOf } from '../../src/parts/jigs/jigs.js';
import { buildHeader, routeHeader } from '../../src/pipeline.js';
import { jscadSolid } from './jscad-solid.js';
import { occSolid, occStl, openCascade } from './occ-solid.js';
import { processorTime } from './processor-time.js';
import { hasHull, leavesOf, type PartWork, solidsBuiltBy } from './solid-work.js';

const file = new URL('../../../../../templates/inline-four.yaml', import.meta.url);
const read = readPlan(readFileSync(file, 'utf8'), 'inline-four.yaml');
if (!read.ok) throw new Error(read.text);
const routing = routeHeader(read.plan);
if (!routing.ok) throw new Error(JSON.stringify(routing.miss));
const { header } = routing;

function parts() {
  const { plan } = header;
  const collectors = plan.collectors.map(
    (c, i) => collectorOf(c, inletTube(plan, c), plan.jig.bed, `collector-${i + 1}`).part,
  );
  return [...collectors, ...mockUpOf(header).parts];
}

function timed<T>(run: () => T): { seconds: number; made: T } {
  const started = processorTime();
  const made = run();
  return { seconds: processorTime() - started, made };
}

/** How far a volume may be from ours before it counts as another part: facets of 0.05 mm make about half a percent. */
const SAME = 0.02;

interface Peer {
  seconds: number;
  own: number;
  parts: number;
  open: number;
  wrong: string[];
}

/** The same parts by another kernel to STL, one after the other with ours; what its STL is like after welding equal points. */
function against(work: readonly PartWork[], theirs: (w: PartWork) => Uint8Array): Peer {
  const peer: Peer = { seconds: 0, own: 0, parts: 0, open: 0, wrong: [] };
  for (const w of work) {
    const ours = timed(() => stlBytes(snapMesh(evaluate(w.solid), 2 ** -12), w.name));
    peer.own += ours.seconds;
    peer.parts++;
    const started = processorTime();
    try {
      const bytes = theirs(w);
      peer.seconds += processorTime() - started;
      const mesh = weldExact(meshFromStl(bytes));
      const open = unpairedEdges(mesh);
      peer.open += open > 0 ? 1 : 0;
      const [a, b] = [meshVolume(mesh), meshVolume(meshFromStl(ours.made))];
      if (!(Math.abs(a - b) < SAME * b)) peer.wrong.push(`${w.name}: ${a.toFixed(0)} for ${b.toFixed(0)} mm3`);
    } catch (e) {
      peer.seconds += processorTime() - started;
      peer.wrong.push(`${w.name}: ${String(e).slice(0, 80)}`);
    }
  }
  return peer;
}

function jscadStl({ solid }: PartWork): Uint8Array {
  const chunks = serializer.serialize({ binary: true }, jscadSolid(solid)).map((b) => Buffer.from(b));
  return new Uint8Array(Buffer.concat(chunks));
}

if (process.argv[2] === 'build') {
  const built = await buildHeader(header);
  const { files } = outputsOf(built);
  const bytes = files.reduce((n, f) => n + f.bytes.length, 0);
  console.log(JSON.stringify({ files: files.length, bytes, memory: process.resourceUsage().maxRSS / 1024 }));
} else {
  parts(); // warm
  const whole = timed(() => stlFiles(parts()));
  const work = solidsBuiltBy(parts);
  const jscad = process.argv[2] === 'jscad' ? against(work, jscadStl) : null;
  const oc = process.argv[2] === 'occ' ? await openCascade() : null;
  const native = work.filter((w) => !hasHull(w.solid) && leavesOf(w.solid).every((leaf) => 'madeAs' in leaf));
  const occ = oc === null ? null : against(native, ({ solid }) => occStl(oc, occSolid(oc, solid)));
  console.log(JSON.stringify({ whole: whole.seconds, parts: work.length, native: native.length, jscad, occ }));
}
