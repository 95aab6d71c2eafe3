import { simulate } from '../../src/tuning/engine/simulate.js';
import { ductShape } from '../../src/tuning/gas/duct.js';
import { fillDuct } from '../../src/tuning/gas/duct-gas.js';
import { AIR, BURNED } from '../../src/tuning/gas/gas.js';
import { filledVolume, gasNetwork, networkContent } from '../../src/tuning/gas/network.js';
import { run } from '../support/gas-pipe.js';
import { ENGINE, fourIntoOne } from '../support/simple-exhaust.js';
import type { VerificationRow } from './row.js';

/** Two pipes and a cone on one joint, closed to the outside: what it holds before and after the gas has sloshed about. */
export function closedSystem() {
  const gases = { fresh: AIR, burned: BURNED };
  const rho = (p: number, t: number, y: number): number => p / ((AIR.r + y * (BURNED.r - AIR.r)) * t);
  const tube = (length: number, area: (x: number) => number, p: number, t: number, y: number) =>
    fillDuct(ductShape({ length, cells: 40, area, roughness: 3e-5, bendLoss: () => 2 }), gases, () => ({
      density: rho(p, t, y),
      velocity: 0,
      pressure: p,
      burned: y,
    }));
  const network = gasNetwork({
    gases,
    ducts: [
      tube(0.6, () => 1.2e-3, 3e5, 1100, 1),
      tube(0.6, () => 1.2e-3, 1e5, 700, 0.6),
      tube(0.4, (x) => 1.5e-3 * (1 + x) ** 2, 1e5, 400, 0),
    ],
    ends: [
      { duct: 0, side: 'start', kind: 'closed' },
      { duct: 0, side: 'end', kind: 'volume', volume: 0, share: 1 },
      { duct: 1, side: 'start', kind: 'closed' },
      { duct: 1, side: 'end', kind: 'volume', volume: 0, share: 0.4 },
      { duct: 2, side: 'start', kind: 'volume', volume: 0, share: 1 },
      { duct: 2, side: 'end', kind: 'closed' },
    ],
    volumes: [filledVolume(gases, 4e-4, { pressure: 1.2e5, temperature: 600, burned: 0.2 })],
  });
  const before = networkContent(network);
  let fastest = 0;
  run(
    network,
    0.03,
    () => {
      fastest = Math.max(fastest, Math.abs(network.ducts[2]!.velocity[20]!));
    },
    true,
  );
  return { before, after: networkContent(network), fastest };
}

const keeps = (what: 'mass' | 'energy' | 'burned'): VerificationRow => ({
  name: `Pipes, cone, joint and restriction, closed: change of ${what === 'burned' ? 'burned gas' : what}`,
  source: 'conservation law',
  unit: '',
  error: 'absolute',
  limit: 1e-12,
  measure: () => {
    const { before, after } = closedSystem();
    return { expected: 0, got: after[what] / before[what] - 1 };
  },
});

const running: VerificationRow = {
  name: 'Running four-cylinder engine: mass unaccounted in a cycle',
  source: 'conservation law',
  unit: '',
  error: 'absolute',
  limit: 1e-12,
  measure: () => ({
    expected: 0,
    got: simulate(fourIntoOne([0.6, 0.6, 0.6, 0.6]), ENGINE, 6000, { cellLength: 0.04, mostCycles: 3 }).convergence
      .massError,
  }),
};

export const closedSystemRows: readonly VerificationRow[] = [keeps('mass'), keeps('energy'), keeps('burned'), running];
