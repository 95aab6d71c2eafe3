import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { checkedSummary } from '../../../src/checked-summary.js';
import { readAsBuilt } from '../../../src/params/as-built/read-as-built.js';
import { type ReadPlan, readPlan } from '../../../src/params/read-plan.js';
import { routeHeader } from '../../../src/pipeline.js';
import { fullPlan } from '../../params/full-plan.js';
import { stlText, tetrahedron } from '../stl-text.js';
import { mutated, mutatedBytes } from './mutations.js';
import { type Random, randomFrom } from './random.js';

export type FuzzKind = 'plan' | 'sound plan routed' | 'as-built' | 'dxf' | 'csv' | 'stl';

/** What became of one case. A fault is a sentence: what went wrong with the program, never with the file. */
export interface FuzzOutcome {
  readonly kind: FuzzKind;
  readonly end: 'taken' | 'refused' | 'no route';
  readonly fault: string | null;
  readonly milliseconds: number;
  /** The file that was read. */
  readonly text: string | Uint8Array;
}

/** A case longer than this hangs, ms: the largest sound plan takes a fraction of it. */
export const HANG = 10_000;

const templates = fileURLToPath(
  new URL(`${'../'.repeat(import.meta.url.includes('/dist/') ? 6 : 3)}templates/`, import.meta.url),
);
const read = (name: string): string => readFileSync(templates + name, 'utf8');
const STARTERS = readdirSync(templates)
  .filter((f) => f.endsWith('.yaml'))
  .map(read);
const PLANS = [...STARTERS, fullPlan('mm'), fullPlan('in')];
const SINGLE = read('single.yaml');
const TRACED_HEAD = read('traced-gasket.yaml');
const TRACED_PORT = SINGLE.replace(/shape: \{.*\}/, 'shape: { kind: traced, file: a.csv, unit: mm }');
const SCANNED = SINGLE.replace(
  'keep_out:\n',
  'keep_out:\n  - { name: scan, kind: mesh, file: a.stl, unit: mm, at: [600, -900, 100] }\n',
);
type Files = Readonly<Record<string, string | Uint8Array>>;
const DRAWING = read('traced-gasket.dxf');
const SCAN = stlText(tetrahedron(50));
const CSV = `x,y\n${Array.from({ length: 40 }, (_, i) => `${50 + 20 * Math.cos(i / 6.4)},${20 * Math.sin(i / 6.4)}`).join('\n')}\n`;
const AS_BUILT = `evenrun_measured: 1
units: mm
tubes:
  - { cylinder: 1, length: 760.4, begins: port, uncertainty: 0.5 }
  - cylinder: 2
    pieces:
      - { piece: 2A, bend: 90.2, before: 12, after: 30.5 }
      - { piece: 2B, length: 80 }
  - { cylinder: 3, string: { inside: 740.2, outside: 781 } }
  - { cylinder: 4, water: { volume: 960, from: port } }
  - { from: front, points: [[0, 0, 0], [0, 0, 180], [0, -300, 180]], by: intersection, clr: [63.5] }
`;

/** One case of a kind; the same seed gives the same case. */
export function fuzzCase(kind: FuzzKind, seed: number): FuzzOutcome {
  const random = randomFrom(seed);
  const [text, run] = CASES[kind](random);
  const from = performance.now();
  let end: FuzzOutcome['end'] = 'refused';
  let fault: string | null = null;
  try {
    end = run();
  } catch (error) {
    fault =
      error instanceof FuzzFault ? error.message : `it throws: ${error instanceof Error ? error.stack : String(error)}`;
  }
  const milliseconds = performance.now() - from;
  if (fault === null && milliseconds > HANG) fault = `it takes ${(milliseconds / 1000).toFixed(1)} s`;
  return { kind, end, fault, milliseconds, text };
}

class FuzzFault extends Error {}

type Case = (random: Random) => readonly [text: string | Uint8Array, run: () => FuzzOutcome['end']];

const CASES: Readonly<Record<FuzzKind, Case>> = {
  plan: (random) => {
    const text = changes(random, random.of(PLANS));
    return [
      text,
      () => judged(readPlan(text, 'plan.yaml', filesOf({ 'traced-gasket.dxf': DRAWING, 'bay.stl': SCAN }))),
    ];
  },
  'sound plan routed': (random) => {
    const text = softChange(random, random.of(PLANS));
    return [
      text,
      () => routed(readPlan(text, 'plan.yaml', filesOf({ 'traced-gasket.dxf': DRAWING, 'bay.stl': SCAN }))),
    ];
  },
  'as-built': (random) => {
    const text = changes(random, AS_BUILT);
    return [
      text,
      () => {
        const found = readAsBuilt(text, 'tubes.yaml');
        if (!found.ok) return refusal(found.problems, found.text);
        allFinite(found.asBuilt, 'as-built');
        return 'taken';
      },
    ];
  },
  dxf: (random) => {
    const text = changes(random, DRAWING);
    return [text, () => judged(readPlan(TRACED_HEAD, 'plan.yaml', filesOf({ 'traced-gasket.dxf': text })))];
  },
  csv: (random) => {
    const text = changes(random, CSV);
    return [text, () => judged(readPlan(TRACED_PORT, 'plan.yaml', filesOf({ 'a.csv': text })))];
  },
  stl: (random) => {
    const bytes = mutatedBytes(random.chance(0.5) ? SCAN : binaryScan(), random);
    return [bytes, () => judged(readPlan(SCANNED, 'plan.yaml', filesOf({ 'a.stl': bytes })))];
  },
};

function changes(random: Random, text: string): string {
  let changed = text;
  for (let i = random.below(4); i >= 0; i--) changed = mutated(changed, random);
  return changed;
}

/** A number a little other, so that most such plans are sound. */
function softChange(random: Random, text: string): string {
  const places = [...text.matchAll(/(?<=[:[,] ?)-?\d+(?:\.\d+)?/g)];
  const { index, 0: old } = random.of(places);
  const value = Number(old) * random.of([0.5, 0.8, 0.95, 1.05, 1.2, 2]) + random.of([0, 0, 1, -7]);
  return text.slice(0, index) + String(Math.round(value * 100) / 100) + text.slice(index + old.length);
}

const filesOf =
  (files: Files) =>
  (path: string): Uint8Array => {
    const file = files[path];
    if (file === undefined) throw new Error('no such file');
    return typeof file === 'string' ? new TextEncoder().encode(file) : file;
  };

function binaryScan(): Uint8Array {
  const triangles = tetrahedron(50);
  const view = new DataView(new ArrayBuffer(84 + 50 * triangles.length));
  view.setUint32(80, triangles.length, true);
  for (const [i, t] of triangles.entries()) {
    for (const [k, v] of t.flat().entries()) view.setFloat32(84 + 50 * i + 12 + 4 * k, v, true);
  }
  return new Uint8Array(view.buffer);
}

function judged(found: ReadPlan): FuzzOutcome['end'] {
  if (!found.ok) return refusal(found.problems, found.text);
  allFinite(found.plan, 'plan');
  return 'taken';
}

function routed(found: ReadPlan): FuzzOutcome['end'] {
  if (!found.ok) return refusal(found.problems, found.text);
  const until = performance.now() + 2000;
  const routing = routeHeader(found.plan, {
    quick: true,
    goOn: (share = 1) => performance.now() < until - 2000 * (1 - share),
  });
  if (!routing.ok) return 'no route';
  allFinite(checkedSummary(routing.header), 'summary');
  return 'taken';
}

function refusal(problems: readonly { line: number; column: number; message: string }[], text: string): 'refused' {
  if (problems.length === 0) throw new FuzzFault('it refuses without a reason');
  for (const { line, column, message } of problems) {
    if (!(line >= 1 && column >= 1 && message.length > 0)) throw new FuzzFault(`a refusal without a place: ${message}`);
  }
  const odd =
    /undefined|(?<!found )\bNaN\b|is not a function|Cannot read|\[object|(?!\n)[\p{Cc}\p{Bidi_Control}]/u.exec(text);
  if (odd)
    throw new FuzzFault(
      `a refusal that is no sentence: ${JSON.stringify(text.slice(Math.max(0, odd.index - 200), odd.index + 100))}`,
    );
  return 'refused';
}

/** No number in what is taken is NaN or infinite. */
function allFinite(value: unknown, at: string): void {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new FuzzFault(`${at} is ${value}`);
  } else if (ArrayBuffer.isView(value)) {
    const list = value as unknown as ArrayLike<number>;
    for (let i = 0; i < list.length; i++) allFinite(list[i], at);
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, v] of Object.entries(value)) allFinite(v, `${at}.${key}`);
  }
}

/** How often each kind is drawn: plans have the most ways to be wrong. */
const SHARES: readonly (readonly [FuzzKind, number])[] = [
  ['plan', 0.55],
  ['sound plan routed', 0.01],
  ['as-built', 0.14],
  ['dxf', 0.1],
  ['csv', 0.1],
  ['stl', 0.1],
];

/** The kind of case number n: the same mix in every stretch of a hundred. */
export function kindOf(n: number): FuzzKind {
  let at = ((n * 37) % 100) / 100;
  for (const [kind, share] of SHARES) {
    if (at < share - 1e-9) return kind;
    at -= share;
  }
  return 'stl';
}
