import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import * as z from 'zod';
import { validateOutline } from '../../src/geometry/outline/valid.js';
import { segmentApproach } from '../../src/geometry/space/segment-distance.js';
import { along, length } from '../../src/geometry/vec3.js';
import { planJsonSchema } from '../../src/params/json-schema.js';
import type { Plan } from '../../src/params/plan.js';
import { readPlan } from '../../src/params/read-plan.js';
import { renameStarter, STARTERS } from '../../src/params/text/starter.js';
import { withoutRequiredPairs } from './plain-schema.js';

const bytesOf = (file: string) => readFileSync(new URL(`../../templates/${file}`, import.meta.url));
const textOf = (name: string) => bytesOf(`${name}.yaml`).toString('utf8');

function planFrom(text: string): Plan {
  const read = readPlan(text, 'plan.yaml', bytesOf);
  if (!read.ok) throw new Error(read.text);
  return read.plan;
}

describe.each(STARTERS.map((s) => s.name))('starter plan %s', (name) => {
  const text = textOf(name);

  test('is sound, with unit frames and valid outlines', () => {
    const plan = planFrom(text);
    for (const { outline, frame } of plan.ports) {
      validateOutline(outline);
      for (const axis of [frame.x, frame.y, frame.z]) expect(length(axis)).toBeCloseTo(1, 12);
    }
    for (const { frame } of plan.collectors) expect(length(frame.z)).toBeCloseTo(1, 12);
    expect(plan.collectors.flatMap((c) => c.cylinders).sort()).toEqual(plan.ports.map((p) => p.cylinder).sort());
  });

  test('each tube can leave its port straight past every socket', () => {
    const { ports, access, tube, flange } = planFrom(text);
    for (const { frame, cylinder } of ports) {
      for (const room of access) {
        const { origin, z } = room.frame;
        const out = along(frame.origin, frame.z, flange.thickness + room.length);
        const { distance } = segmentApproach(frame.origin, out, origin, along(origin, z, room.length));
        expect(distance, `cylinder ${cylinder}, ${room.name}`).toBeGreaterThan((tube.od + room.diameter) / 2 + 2);
      }
    }
  });

  test('passes the JSON Schema that editors use', () => {
    const schema = z.fromJSONSchema(withoutRequiredPairs(planJsonSchema()));
    expect(schema.safeParse(parse(text)).error?.issues).toBeUndefined();
  });

  test('explains itself: a comment for a third of its lines or more than twelve', () => {
    expect(text.split('\n').filter((l) => l.includes('#')).length).toBeGreaterThan(12);
    expect(text.split('\n').every((l) => l.length <= 150)).toBe(true);
  });

  test('takes another name and keeps everything else', () => {
    const renamed = renameStarter(text, 'shop car: "two"');
    const before = planFrom(text);
    const after = planFrom(renamed);
    expect(after).toEqual({ ...before, name: 'shop car: "two"', hash: after.hash });
    expect(after.hash).not.toBe(before.hash);
    const [a, b] = [text.split('\n'), renamed.split('\n')];
    expect(b).toHaveLength(a.length);
    expect(a.filter((line, i) => line !== b[i])).toHaveLength(1);
  });
});

describe('starter plans', () => {
  test('every file of the folder is listed, and every one listed is there', () => {
    const files = readdirSync(new URL('../../templates/', import.meta.url));
    expect(files.sort()).toEqual(STARTERS.flatMap((s) => [`${s.name}.yaml`, ...(s.files ?? [])]).sort());
  });

  test.each(['a: b', '# x', '12', 'true', '- a', "it's", ' padded', '{x}', '*y', 'Doppelrohr Ü'])(
    'can be named %j',
    (name) => {
      expect(planFrom(renameStarter(textOf('single'), name)).name).toBe(name);
    },
  );

  test.each(['', '   ', 'a\nb', 'a\u0000', 'x'.repeat(81), 'a\u2028b', '\ud800'])('cannot be named %j', (name) => {
    expect(() => renameStarter(textOf('single'), name)).toThrow(RangeError);
  });

  test('a text without a name is refused', () => {
    expect(() => renameStarter('units: mm\n', 'a')).toThrow('the starter plan has no name to change');
  });
});
