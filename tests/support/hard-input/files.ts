import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { HardCase } from './case.js';
import { SINGLE } from './single.js';

const GIGABYTE = 1_000_000_000;

/** Something that stands where a file should. */
type Made = (path: string) => void;

const huge: Made = (path) => {
  writeFileSync(path, '');
  truncateSync(path, GIGABYTE);
};
const pipe: Made = (path) => void execFileSync('mkfifo', [path]);
const zeros: Made = (path) => symlinkSync('/dev/zero', path);
const folder: Made = (path) => void mkdirSync(path);
const dangling: Made = (path) => symlinkSync('nowhere', path);
const circle: Made = (path) => symlinkSync(path, path);

/** Plans that name a file, and commands that take one. */
const PLACES = {
  plan: { file: 'plan.yaml', args: ['build', 'plan.yaml', '--out', 'out'], plan: null },
  drawing: {
    file: 'port.dxf',
    args: ['build', 'own.yaml', '--out', 'out'],
    plan: SINGLE.replace('shape: { kind: round, diameter: 40 }', 'shape: { kind: traced, file: port.dxf }'),
  },
  'traced points': {
    file: 'port.csv',
    args: ['build', 'own.yaml', '--out', 'out'],
    plan: SINGLE.replace('shape: { kind: round, diameter: 40 }', 'shape: { kind: traced, file: port.csv, unit: mm }'),
  },
  scan: {
    file: 'bay.stl',
    args: ['build', 'own.yaml', '--out', 'out'],
    plan: SINGLE.replace('keep_out:\n', 'keep_out:\n  - { name: bay, kind: mesh, file: bay.stl, unit: mm }\n'),
  },
  'as-built file': { file: 'tubes.yaml', args: ['measure', 'own.yaml', '--as-built', 'tubes.yaml'], plan: SINGLE },
  'part of a sweep': { file: 'part.jsonl', args: ['sweep', '--merge', 'part.jsonl'], plan: null },
} as const;

type Place = keyof typeof PLACES;

const inPlace = (what: string, place: Place, made: Made, words: RegExp, exit = 2): HardCase => ({
  what: `${what} as the ${place}`,
  exit,
  words,
  prepare: (at) => {
    const { file, args, plan } = PLACES[place];
    if (plan !== null) writeFileSync(join(at, 'own.yaml'), plan);
    made(join(at, file));
    return args;
  },
});

const CAPS: Readonly<Record<Place, string>> = {
  plan: '1000000',
  drawing: '20000000',
  'traced points': '20000000',
  scan: '200000000',
  'as-built file': '1000000',
  'part of a sweep': '500000000',
};

const NO_FILES: readonly (readonly [what: string, made: Made, words: RegExp])[] = [
  ['a pipe nobody writes to', pipe, /not a file/],
  ['a link to /dev/zero', zeros, /not a file/],
  ['a folder', folder, /not a file/],
  ['a link to nowhere', dangling, /no such file/],
  ['a link to itself', circle, /links lead in a circle/],
];

const places = Object.keys(PLACES) as Place[];

/** Rubbish in the files a plan names. */
const RUBBISH = Buffer.from(Array.from({ length: 100_000 }, (_, i) => (i * 48_271) % 251));

const CSV = `${Array.from({ length: 40 }, (_, i) => {
  const a = (2 * Math.PI * i) / 40;
  return `${(20 * Math.cos(a)).toFixed(4)},${(20 * Math.sin(a)).toFixed(4)}`;
}).join('\n')}\n`;

export const FILES: readonly HardCase[] = [
  ...places.map((place) =>
    inPlace(
      'a file of 1 GB',
      place,
      huge,
      new RegExp(`1000000000 bytes.*${CAPS[place]}|${CAPS[place]}.*1000000000 bytes`),
    ),
  ),
  ...places.flatMap((place) => NO_FILES.map(([what, made, words]) => inPlace(what, place, made, words))),
  ...(['drawing', 'traced points', 'scan'] as const).map((place) =>
    inPlace('binary rubbish', place, (path) => writeFileSync(path, RUBBISH), /own\.yaml:\d+:\d+/),
  ),
  inPlace(
    'UTF-16',
    'traced points',
    (path) => writeFileSync(path, Buffer.from(`\uFEFF${CSV}`, 'utf16le')),
    /own\.yaml:\d+:\d+.*line 1/,
  ),
  {
    what: 'a link to a sound file elsewhere as the plan',
    exit: 0,
    words: /all checks hold/,
    prepare: (at) => {
      symlinkSync(resolve('templates/single.yaml'), join(at, 'plan.yaml'));
      return ['check', 'plan.yaml'];
    },
  },
  {
    what: 'traced points by a link, in a folder below',
    exit: 0,
    words: /all checks hold/,
    prepare: (at) => {
      mkdirSync(join(at, 'measured'));
      writeFileSync(join(at, 'measured/real.csv'), CSV);
      symlinkSync('measured/real.csv', join(at, 'port.csv'));
      writeFileSync(join(at, 'own.yaml'), PLACES['traced points'].plan);
      return ['check', 'own.yaml'];
    },
  },
  {
    what: 'a scan of endless kernel messages (/proc/kmsg)',
    exit: 2,
    words: /own\.yaml:\d+:\d+ keep_out\.0\.file: cannot read "\/proc\/kmsg"/,
    prepare: (at) => {
      writeFileSync(join(at, 'own.yaml'), PLACES.scan.plan.replace('bay.stl', '/proc/kmsg'));
      return ['check', 'own.yaml'];
    },
  },
  {
    what: 'a drawing that is a plan',
    exit: 2,
    words: /own\.yaml:\d+:\d+/,
    prepare: (at) => {
      writeFileSync(join(at, 'own.yaml'), PLACES.drawing.plan);
      writeFileSync(join(at, 'port.dxf'), readFileSync('templates/single.yaml'));
      return ['check', 'own.yaml'];
    },
  },
];
