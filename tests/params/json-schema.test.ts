import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import * as z from 'zod';
import { planJsonSchema } from '../../src/params/json-schema.js';
import { BASE } from './base-plan.js';
import { withoutRequiredPairs } from './plain-schema.js';

interface Schema {
  readonly $schema?: string;
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: unknown;
  readonly items?: Schema | readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly anyOf?: readonly Schema[];
  readonly allOf?: readonly Schema[];
  readonly default?: unknown;
}

const schema = planJsonSchema() as Schema;

describe('JSON Schema of a plan', () => {
  test('is a draft 7 object with every section, and is plain JSON', () => {
    expect(schema.$schema).toBe('http://json-schema.org/draft-07/schema#');
    expect(Object.keys(schema.properties!)).toEqual([
      'evenrun',
      'name',
      'units',
      'engine',
      'head',
      'heads',
      'flange',
      'tube',
      'collector',
      'collectors',
      'secondaries',
      'runners',
      'ground',
      'keep_out',
      'access',
      'jig',
      'plates',
      'gaskets',
      'drawing',
      'weld',
      'stock',
      'patterns',
      'tuning',
      'existing',
    ]);
    expect(schema.required).toEqual(['evenrun', 'name', 'units', 'engine', 'flange', 'tube', 'runners']);
    expect(JSON.parse(JSON.stringify(schema))).toEqual(schema);
  });

  test('asks for exactly one of head and heads, collector and collectors', () => {
    expect(schema.allOf).toEqual([
      { oneOf: [{ required: ['head'] }, { required: ['heads'] }] },
      { oneOf: [{ required: ['collector'] }, { required: ['collectors'] }] },
    ]);
  });

  test('asks for cylinders or from, never both, in a list of collectors', () => {
    const { items } = schema.properties!.collectors!;
    expect((items as Schema).oneOf).toEqual([{ required: ['cylinders'] }, { required: ['from'] }]);
  });

  test('knows the fields of steps, secondaries, bands, freedom, scans and tool room', () => {
    const at = (...path: string[]): Schema =>
      path.reduce<Schema>((s, name) => (name === '*' ? (s.items as Schema) : s.properties![name]!), schema);
    expect(Object.keys(at('tube', 'steps', '*').properties!)).toEqual([
      'at',
      'within',
      'size',
      'od',
      'wall',
      'bends',
      'sticks',
    ]);
    expect(Object.keys(at('secondaries').properties!)).toEqual([
      'length',
      'spread',
      'size',
      'od',
      'wall',
      'bends',
      'sticks',
    ]);
    expect(at('secondaries').required).toEqual(['length', 'bends']);
    expect(at('runners', 'length').anyOf!.map((s) => Object.keys(s.properties ?? {}))).toEqual([
      [],
      ['from', 'to'],
      [],
    ]);
    expect(at('runners', 'weights').properties!.closeness!.default).toBe(30);
    expect(Object.keys(at('collectors', '*', 'freedom').properties!)).toEqual(['from', 'to', 'tilt', 'turns']);
    expect(at('head', 'plugs', '*').required).toEqual(['cylinder', 'at', 'direction']);
    expect(at('access').properties!.bolt_depth!.default).toBe('70 mm');
    const kinds = (at('keep_out', '*').oneOf ?? []).map((s) => Object.keys(s.properties!).slice(-4));
    expect(kinds).toHaveLength(5);
    expect(kinds.at(-1)).toEqual(['file', 'unit', 'at', 'turn']);
  });

  test('describes every field and closes every section', () => {
    const bare: string[] = [];
    const open: string[] = [];
    const walk = (s: Schema, path: string): void => {
      if (s.type === 'object' && s.additionalProperties !== false) open.push(path);
      for (const [name, field] of Object.entries(s.properties ?? {})) {
        if (field.description === undefined && name !== 'kind' && name !== 'by') bare.push(`${path}.${name}`);
        walk(field, `${path}.${name}`);
      }
      const inner = [s.items ?? [], s.oneOf ?? [], s.anyOf ?? []].flat() as Schema[];
      for (const i of inner) walk(i, path);
    };
    walk(schema, '');
    expect(bare).toEqual([]);
    expect(open).toEqual([]);
  });

  test('shows defaults with their unit', () => {
    expect(schema.properties!.flange!.properties!.web!.default).toBe('5 mm');
    expect(schema.properties!.jig!.properties!.bed!.default).toEqual(['210 mm', '210 mm', '210 mm']);
    expect(schema.properties!.collector!.properties!.order!.default).toBe('free');
  });

  test('accepts and refuses what a reader of JSON Schema not ours makes of it', () => {
    const reader = z.fromJSONSchema(withoutRequiredPairs(schema));
    const base = parse(BASE);
    expect(reader.safeParse(base).success).toBe(true);
    for (const wrong of [
      { ...base, extra: 1 },
      { ...base, units: 'cm' },
      { ...base, tube: { ...base.tube, od: 'abc' } },
      { ...base, tube: { ...base.tube, od: -5 } },
      { ...base, tube: { ...base.tube, steps: [{ at: 300 }] } },
      { ...base, runners: { length: { from: 500 } } },
      { ...base, runners: { length: 500, weights: { bends: 2 } } },
      { ...base, access: { bolts: 'yes' } },
      { ...base, keep_out: [{ name: 'a', kind: 'mesh', file: 'a.stl' }] },
      { ...base, engine: { ...base.engine, cylinders: 17 } },
      { ...base, name: undefined },
      { ...base, head: { ...base.head, ports: [{ cylinder: 1, at: [0, 0], shape: { kind: 'star' } }] } },
    ]) {
      expect(reader.safeParse(JSON.parse(JSON.stringify(wrong))).success).toBe(false);
    }
  });
});
