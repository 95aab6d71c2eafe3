import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { evenrun } from '../support/command.js';
import { type TightBay, tightBayText } from '../support/tight-bay.js';

const folder = mkdtempSync(join(tmpdir(), 'evenrun-no-route-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A wall that two ports have no way round. */
const WALLED: TightBay = {
  boxes: {
    wall: [
      [-900, -150, -100],
      [900, -130, 900],
    ],
  },
};

function build(name: string, bay: TightBay, ...more: string[]): ReturnType<typeof evenrun> & { left: string[] } {
  writeFileSync(join(folder, `${name}.yaml`), tightBayText(bay));
  const ran = evenrun(['build', `${name}.yaml`, '--out', name, ...more], folder);
  return { ...ran, left: readdirSync(folder).filter((f) => !f.endsWith('.yaml')) };
}

describe('a plan without a way', () => {
  it('exit 3: the nearest miss in numbers, the limits that conflict, what alone would do; nothing written', () => {
    const { code, err, out, left } = build('walled', WALLED);
    expect(code).toBe(3);
    expect(err).toMatch(/cylinder 1 and keep-out wall: gap -[\d.]+ mm, 5\.4 mm wanted: [\d.]+ mm short/);
    expect(err).toMatch(/conflict.*as far as the search can tell:\n(.*\n)*? {2}- keep_out "wall"\n/);
    expect(err).toMatch(/would do \(tried\):\n(.*\n)*? {2}- without keep_out "wall"\n/);
    expect(err).toMatch(/Nothing was written/);
    expect(out).toBe('');
    expect(left).toEqual([]);
  });

  it('--json says the same as data', () => {
    const { code, out } = build('short', { length: 250 }, '--json');
    expect(code).toBe(3);
    const { error } = JSON.parse(out);
    expect(error.exit).toBe(3);
    expect(error.conflict).toContain('runners.length');
    expect(error.relaxations[0]).toMatchObject({ words: 'runners.length', from: 250, unit: 'mm', worked: true });
    expect(error.relaxations[0].to).toBeGreaterThan(250);
    expect(error.broken[0]).toMatchObject({ kind: 'length', place: 'cylinder 1', value_mm: 250 });
    expect(error.nearest).toMatchObject([{ name: 'cylinder 1', inlet: 1 }]);
    expect(error.timed_out).toBe(false);
  });

  it('ends within the budget, with the nearest set marked as no solution', () => {
    const begun = performance.now();
    const { code, err } = build('hurried', { ...WALLED, ports: 2, budget: 2 });
    expect(code).toBe(3);
    // 2 s, and what it takes to start on a busy machine
    expect(performance.now() - begun).toBeLessThan(5000);
    expect(err).toMatch(/time ran out \(runners\.budget\)/);
    expect(err).toMatch(
      /The nearest set so far, NOT a solution:\n +tube +inlet +length +bends +least gap\n +cylinder 1 /,
    );
    expect(err).toMatch(/runners\.budget more seconds/);
  });
});
