import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import * as z from 'zod';
import type { AsBuilt } from '../../../src/params/as-built/as-built.js';
import { readAsBuilt } from '../../../src/params/as-built/read-as-built.js';
import { asBuiltJsonSchema } from '../../../src/params/json-schema.js';

const file = (tubes: string, units = 'mm'): string => `evenrun_measured: 1\nunits: ${units}\ntubes:\n${tubes}\n`;

function asBuilt(text: string): AsBuilt {
  const read = readAsBuilt(text, 'tubes.yaml');
  if (!read.ok) throw new Error(read.text);
  return read.asBuilt;
}

function faults(text: string): string {
  const read = readAsBuilt(text, 'tubes.yaml');
  if (read.ok) throw new Error('the file was accepted');
  return read.text;
}

describe('faults of the text of an as-built file', () => {
  const tube = file('  - { cylinder: 1, length: 758.4 }');
  test.each([
    ['another version', `%YAML 1.1\n---\n${tube}`, 'an as-built file is YAML 1.2'],
    ['a second document', `${tube}---\n${tube}`, 'an as-built file holds the tubes of one header'],
    ['a tag', tube.replace('length: 758.4', 'length: !in 758.4'), 'an as-built file has no tags'],
    ['a field of the language', `${tube}constructor: 1\n`, 'an as-built file cannot have a field named'],
    ['nesting without end', '['.repeat(5000), 'nested deeper than an as-built file'],
    ['a file without end', `${tube}${'#'.repeat(1_000_001)}`, 'expected an as-built file of at most'],
  ])('%s: speak of the as-built file, not of a plan', (_, text, words) => {
    expect(faults(text)).toContain(words);
    expect(faults(text)).not.toMatch(/\bplans?\b/);
  });
});

describe('an as-built file', () => {
  test('holds every kind of measurement, in mm and rad', () => {
    const { tubes } = asBuilt(
      file(`  - { cylinder: 1, length: 758.4, uncertainty: 0.4 }
  - { cylinder: 2, pieces: [{ piece: 2A, length: 40 }, { piece: 2B, before: 3, bend: 90 }] }
  - { cylinder: 3, string: { inside: 690, outside: 830 }, begins: flange }
  - { cylinder: 4, water: { volume: 905.2, from: flange } }
  - { from: front, points: [[0, 0, 0], [0, 0, 100]], by: tangent }`),
    );
    expect(tubes.map((t) => t.measured)).toEqual([
      { kind: 'length', length: 758.4 },
      {
        kind: 'pieces',
        pieces: [
          { piece: '2A', length: 40, bend: null, before: null, after: null },
          { piece: '2B', length: null, bend: Math.PI / 2, before: 3, after: null },
        ],
      },
      { kind: 'string', inside: 690, outside: 830 },
      { kind: 'water', volume: 905_200 },
      {
        kind: 'points',
        by: 'tangent',
        points: [
          [0, 0, 0],
          [0, 0, 100],
        ],
        clr: null,
      },
    ]);
    expect(tubes.map((t) => [t.cylinder, t.from, t.begins, t.uncertainty])).toEqual([
      [1, null, 'port', 0.4],
      [2, null, 'port', null],
      [3, null, 'flange', null],
      [4, null, 'flange', null],
      [null, 'front', 'port', null],
    ]);
  });

  test('in inches has its plain lengths in inches; water stays in millilitres', () => {
    const { tubes } = asBuilt(
      file(
        '  - { cylinder: 1, length: 30, uncertainty: 1/32 in }\n  - { cylinder: 2, length: 760 mm }\n  - { cylinder: 3, water: { volume: 900, from: port } }',
        'in',
      ),
    );
    expect(tubes.map((t) => t.measured)).toEqual([
      { kind: 'length', length: 762 },
      { kind: 'length', length: 760 },
      { kind: 'water', volume: 900_000 },
    ]);
    expect(tubes[0]!.uncertainty).toBeCloseTo(0.79375, 12);
  });

  test.each([
    ['{ length: 700 }', '4:5 tubes.0: expected either cylinder, for a primary, or from, for a secondary'],
    [
      '{ cylinder: 1, from: a, length: 700 }',
      '4:5 tubes.0: expected either cylinder, for a primary, or from, for a secondary',
    ],
    ['{ cylinder: 1 }', '4:5 tubes.0: expected just one of length, pieces, string, water or points, found none'],
    [
      '{ cylinder: 1, length: 7, water: { volume: 9, from: port } }',
      '4:5 tubes.0: expected just one of length, pieces, string, water or points, found length and water',
    ],
    ['{ cylinder: 17, length: 7 }', '4:17 tubes.0.cylinder: expected a whole number from 1 to 16, found 17'],
    ['{ cylinder: 1, length: 8, lenght: 7 }', '4:31 tubes.0.lenght: unknown field; did you mean "length"?'],
    [
      '{ cylinder: 1, length: long }',
      '4:28 tubes.0.length: expected a length such as 44.45 or "1.75 in", found "long"',
    ],
    [
      '{ cylinder: 1, length: -7 }',
      '4:28 tubes.0.length: expected a length over 0 mm and at most 10000 mm, found -7 mm',
    ],
    ['{ cylinder: 1, length: 7, by: tangent }', '4:35 tubes.0.by: only goes with points'],
    [
      '{ cylinder: 1, points: [[0, 0, 0], [0, 0, 9]] }',
      '4:5 tubes.0.by: missing; expected "intersection" or "tangent"',
    ],
    [
      '{ cylinder: 1, points: [[0, 0, 0], [0, 0, 9], [1, 1, 1]], by: tangent }',
      '4:28 tubes.0.points: expected two points for every straight, found 3 points',
    ],
    [
      '{ cylinder: 1, points: [[0, 0, 0], [0, 0, 9]], by: tangent, clr: [60] }',
      '4:70 tubes.0.clr: only goes with points by: intersection',
    ],
    ['{ cylinder: 1, water: { volume: 900 } }', '4:20 tubes.0.water.from: missing; expected port or flange'],
    [
      '{ cylinder: 1, water: { volume: 900, from: port }, begins: port }',
      '4:64 tubes.0.begins: only goes with length, string and points; pieces and water say where they begin themselves',
    ],
    [
      '{ cylinder: 1, length: 7, uncertainty: 51 }',
      '4:44 tubes.0.uncertainty: expected a length from 0 mm to 50 mm, found 51 mm',
    ],
  ])('%s is refused with its line', (tube, message) => {
    expect(faults(file(`  - ${tube}`)).split('\n')[0]).toContain(`tubes.yaml:${message}`);
  });

  test('names what else is wrong with the whole', () => {
    expect(faults('')).toBe('tubes.yaml:1:1: expected a file with evenrun_measured, units and tubes');
    expect(faults('evenrun: 1\nunits: mm\ntubes: []')).toMatch(/1:1 evenrun_measured: missing; expected 1, the format/);
    expect(faults(file('  []'))).toMatch(/4:3 tubes: expected at least 1 entry/);
    expect(faults(file('  - { cylinder: 1, length: 7 }\n  - { cylinder: 1, length: 8 }'))).toBe(
      'tubes.yaml:5:5 tubes.1: 1 is measured twice; keep one',
    );
    expect(faults('a: [')).toMatch(/tubes\.yaml:1/);
  });

  test('has a JSON Schema that accepts and refuses the same', () => {
    const reader = z.fromJSONSchema(asBuiltJsonSchema() as Parameters<typeof z.fromJSONSchema>[0]);
    const sound = parse(file('  - { cylinder: 1, length: 758.4 }'));
    expect(reader.safeParse(sound).success).toBe(true);
    expect(reader.safeParse({ ...sound, units: 'cm' }).success).toBe(false);
    expect(reader.safeParse({ ...sound, tubes: [{ cylinder: 1, lenght: 3 }] }).success).toBe(false);
  });
});
