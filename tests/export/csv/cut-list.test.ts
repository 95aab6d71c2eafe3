import { expect, it } from 'vitest';
import { cutListTable } from '../../../src/export/csv/cut-list.js';
import { cutsOf } from '../../../src/parts/tube/tube-cuts.js';
import { steppedPair } from '../../support/stepped-pair.js';

it('the cut list names cylinder or feeding collector of every piece, and its own size', () => {
  const { plan, primaries, secondaries } = steppedPair();
  const { bytes } = cutListTable([...primaries, ...secondaries].map((t) => cutsOf(plan, t)));
  const [header, ...rows] = new TextDecoder()
    .decode(bytes)
    .trimEnd()
    .split('\r\n')
    .map((l) => l.split(','));
  const column = (name: string) => rows.map((r) => r[header!.indexOf(name)]!);
  const from = column('secondary_from');
  expect(column('cylinder').map((c, i) => (c === '') !== (from[i] === ''))).not.toContain(false);
  expect(new Set(from.filter((f) => f !== ''))).toEqual(new Set(['Y merge']));
  // every tube's rows run on without a gap, from the flange's face or the outlet to its end
  for (const tube of [...primaries, ...secondaries]) {
    const own = rows.filter(
      (r) => r[header!.indexOf('cylinder')] === tube.id || r[header!.indexOf('secondary_from')] === tube.id,
    );
    const runs = own.map((r) => ['from_mm', 'to_mm'].map((n) => Number(r[header!.indexOf(n)])));
    for (let i = 1; i < runs.length; i++) expect(runs[i]![0]).toBe(runs[i - 1]![1]);
    expect(runs.at(-1)![1]).toBe(tube.length);
    const ods = own.map((r) => Number(r[header!.indexOf('od_mm')]));
    expect([ods[0], ods.at(-1)]).toEqual([tube.sections[0]!.od, tube.sections.at(-1)!.od]);
  }
});
