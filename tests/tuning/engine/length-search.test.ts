import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { GasEngine } from '../../../src/tuning/engine/gas-engine.js';
import { bestLength } from '../../../src/tuning/engine/length-search.js';
import type { SimulateOptions } from '../../../src/tuning/engine/options.js';
import { ENGINE, lonePipe } from '../../support/simple-exhaust.js';

/** The length that draws hardest over the overlap, m: one cylinder on one pipe of few cells. */
async function drawingLength(
  rpm: number,
  engine: GasEngine = ENGINE,
  gas: Partial<SimulateOptions> = {},
): Promise<number> {
  const search = { from: 0.3, to: 1.7, rpms: [rpm], aim: 'draw', within: 0.01, grid: 15 } as const;
  const { length, atEdge } = await bestLength(lonePipe(1), engine, search, {
    gas: { cellLength: 0.04, limit: 0.01, ...gas },
  });
  expect(atEdge).toBe(false);
  return length;
}

const RUNS = { numRuns: 3 };

describe('the best length of a primary', () => {
  it('gets shorter as the engine turns faster, about as the inverse of its speed', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 4400, max: 5600 }),
        fc.integer({ min: 1200, max: 1800 }),
        async (slow, more) => {
          const [long, short] = [await drawingLength(slow), await drawingLength(slow + more)];
          expect(short).toBeLessThan(long);
          // acoustics: length times speed stays. The best lengths lie on a plateau as long as the blow-down lasts, a quarter of them
          // wide, on which the peak may be at either end
          const product = (short * (slow + more)) / (long * slow);
          expect(product).toBeGreaterThan(0.65);
          expect(product).toBeLessThan(1.15);
        },
      ),
      RUNS,
    );
  });

  it('gets longer as the gas gets hotter: waves run faster', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 400, max: 600 }), fc.integer({ min: 300, max: 500 }), async (cold, more) => {
        const at = (pipeWall: number) => drawingLength(6000, ENGINE, { pipeWall });
        expect(await at(cold + more)).toBeGreaterThan(await at(cold));
      }),
      RUNS,
    );
  });

  it('gets longer with a cam that opens the exhaust earlier: the wave has more crank angle for its way', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 120, max: 130 }), fc.integer({ min: 10, max: 20 }), async (late, earlier) => {
        const at = (opens: number) => drawingLength(6000, { ...ENGINE, exhaust: { ...ENGINE.exhaust, opens } });
        expect(await at(late - earlier)).toBeGreaterThan(await at(late));
      }),
      RUNS,
    );
  });

  it('lies near what the echo of the open end says', async () => {
    // from the blow-down (about exhaust opening + 50 deg) to the middle of the overlap at 360 deg there and back at some 600 m/s
    const rpm = 6000;
    const expected = (600 * (360 - (ENGINE.exhaust.opens + 50))) / (6 * rpm) / 2;
    const found = await drawingLength(rpm);
    expect(found / expected).toBeGreaterThan(0.5);
    expect(found / expected).toBeLessThan(1);
  });
});

describe('a length search', () => {
  const search = { from: 0.5, to: 0.9, rpms: [9000], aim: 'work', within: 0.05, grid: 3 } as const;

  it('keeps every length it tried, shortest first, and gives the best of them', async () => {
    const found = await bestLength(lonePipe(1), ENGINE, search, { gas: { cellLength: 0.05, mostCycles: 3 } });
    const lengths = found.tried.map((t) => t.length);
    expect(lengths).toEqual([...lengths].sort((a, b) => a - b));
    expect(lengths).toEqual(expect.arrayContaining([0.5, 0.7, 0.9]));
    expect(found.score).toBe(Math.max(...found.tried.map((t) => t.score)));
  });

  it('says that the peak may lie beyond the band', async () => {
    // at 9000 rev/min the best length is far shorter than these
    const band = { ...search, from: 1.0, to: 1.2, aim: 'draw' } as const;
    const found = await bestLength(lonePipe(1), ENGINE, band, { gas: { cellLength: 0.05 } });
    expect(found.atEdge).toBe(true);
  });

  it('refuses a band that is none', async () => {
    await expect(bestLength(lonePipe(1), ENGINE, { ...search, to: 0.5 })).rejects.toThrow(
      'longest length of the search: found 0.5 m; expected 0.55 to 5 m',
    );
    await expect(bestLength(lonePipe(1), ENGINE, { ...search, rpms: [] })).rejects.toThrow('found none');
    await expect(bestLength(lonePipe(1), ENGINE, { ...search, grid: 2 })).rejects.toThrow('lengths tried evenly');
  });
});
