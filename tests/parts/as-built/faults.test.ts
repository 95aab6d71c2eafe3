import { describe, expect, test } from 'vitest';
import { readAsBuilt } from '../../../src/params/as-built/read-as-built.js';
import { asBuiltFaults } from '../../../src/parts/as-built/faults.js';
import { toMeasure } from '../../support/as-built-of.js';
import { routedStarter } from '../../support/starter.js';

const header = routedStarter('inline-four-421');
const tubes = toMeasure(header);
const [straight, bend] = ['straight', 'bend'].map(
  (kind) => tubes[0]!.cuts.pieces.find((c) => c.piece.kind === kind)!.piece.name,
);
const feeders = header.secondaries.map((s) => s.id);
const inner = tubes[0]!.tube.polygon.points.length;
const points = (count: number): string =>
  `[${Array.from({ length: count }, (_, i) => `[0, ${i % 2}, ${20 * i}]`).join(', ')}]`;

function faultsOf(tube: string, plan = header.plan.name): string[] {
  const text = `evenrun_measured: 1\nunits: mm\nplan: ${plan}\ntubes:\n  - ${tube}\n`;
  const read = readAsBuilt(text, 'tubes.yaml');
  if (!read.ok) throw new Error(read.text);
  return read
    .refuse(asBuiltFaults(header.plan, tubes, read.asBuilt))
    .text.split('\n')
    .filter((l) => l !== '');
}

describe('measurements against the tubes of their plan', () => {
  test('go with it', () => {
    expect(faultsOf('{ cylinder: 1, length: 700 }')).toEqual([]);
    expect(faultsOf(`{ from: ${feeders[0]}, length: 300 }`)).toEqual([]);
    expect(
      faultsOf(`{ cylinder: 1, pieces: [{ piece: ${straight}, length: 70 }, { piece: ${bend}, bend: 40 }] }`),
    ).toEqual([]);
  });

  test.each([
    [
      '{ cylinder: 9, length: 700 }',
      /^tubes\.yaml:5:17 tubes\.0\.cylinder: expected a cylinder of the plan \(1, 2, 3 or 4\), found 9$/,
    ],
    ['{ from: middle, length: 700 }', /^tubes\.yaml:5:13 tubes\.0\.from: expected a collector that feeds another/],
    ['{ cylinder: 1, length: 5 }', /^tubes\.yaml:5:28 tubes\.0\.length: this leaves no tube before the collector$/],
    [`{ from: ${feeders[0]}, length: 300, begins: flange }`, /begins: a secondary begins at no flange: expected port$/],
    [
      '{ cylinder: 1, pieces: [{ piece: 1Z, length: 5 }] }',
      /^tubes\.yaml:5:38 tubes\.0\.pieces\.0\.piece: cylinder 1 has no piece "1Z"/,
    ],
    [
      `{ cylinder: 1, pieces: [{ piece: ${straight} }] }`,
      new RegExp(`length: missing; ${straight} is a straight: expected its length$`),
    ],
    [
      `{ cylinder: 1, pieces: [{ piece: ${straight}, length: 5, bend: 5 }] }`,
      /bend: \w+ is a straight: it has only a length$/,
    ],
    [
      `{ cylinder: 1, pieces: [{ piece: ${bend}, length: 5 }] }`,
      /length: \w+ is a bend: expected bend, before or after$/,
    ],
    [`{ cylinder: 1, pieces: [{ piece: ${bend} }] }`, /piece: nothing of \w+ is measured/],
    [
      `{ cylinder: 1, pieces: [{ piece: ${straight}, length: 5 }, { piece: ${straight}, length: 6 }] }`,
      /pieces\.1\.piece: \w+ is measured twice; keep one$/,
    ],
    [
      `{ cylinder: 1, points: ${points(inner + 1)}, by: intersection }`,
      /points: expected \d+ points \(both ends and every intersection point\), found \d+$/,
    ],
    [
      `{ cylinder: 1, points: ${points(2)}, by: tangent }`,
      /points: expected \d+ points \(both ends of every straight\), found 2$/,
    ],
    [
      `{ cylinder: 1, points: ${points(inner)}, by: intersection, clr: [60, 60, 60, 60, 60, 60, 60] }`,
      /clr: expected \d radii, one for each bend, found 7$/,
    ],
    [
      `{ cylinder: 1, points: [${Array.from({ length: inner }, () => '[1, 2, 3]').join(', ')}], by: intersection }`,
      /these points make no tube/,
    ],
  ])('%s is refused with its line', (tube, message) => {
    const found = faultsOf(tube);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(message);
  });

  test('of another plan are refused', () => {
    expect(faultsOf('{ cylinder: 1, length: 700 }', 'another')).toEqual([
      `tubes.yaml:3:7 plan: expected "${header.plan.name}", the plan it is measured against, found "another"`,
    ]);
  });
});
