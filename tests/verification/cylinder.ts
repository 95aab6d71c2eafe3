import { pistonWork } from '../../src/tuning/engine/cylinder.js';
import { cylinderVolume } from '../../src/tuning/engine/piston.js';
import { ductShape } from '../../src/tuning/gas/duct.js';
import { fillDuct } from '../../src/tuning/gas/duct-gas.js';
import { filledVolume, gasNetwork, reservoirOf, stepNetwork } from '../../src/tuning/gas/network.js';
import { COLD_AIR } from '../support/gas-pipe.js';
import { ENGINE } from '../support/simple-exhaust.js';
import type { VerificationRow } from './row.js';

const GASES = { fresh: COLD_AIR, burned: COLD_AIR };

/** Gas of constant heats moved by the piston from one crank angle to another in half degrees: pressure over that before, and the work. */
function moved(from: number, to: number) {
  const start = { pressure: 1e5, temperature: 320, burned: 0 };
  const gas = filledVolume(GASES, cylinderVolume(ENGINE, from), start);
  let work = 0;
  const steps = Math.abs(to - from) * 2;
  for (let k = 1; k <= steps; k++)
    work += pistonWork(gas, GASES, cylinderVolume(ENGINE, from + ((to - from) * k) / steps));
  return { ratio: reservoirOf(gas, GASES).pressure / start.pressure, work };
}

const ISENTROPIC = 'closed form p V^1.4 = constant';

const compression: VerificationRow = {
  name: 'Piston from bottom to top dead centre: pressure ratio',
  source: ISENTROPIC,
  unit: '',
  error: 'relative',
  limit: 0.001,
  measure: () => ({ expected: ENGINE.compressionRatio ** 1.4, got: moved(180, 360).ratio }),
};

const expansion: VerificationRow = {
  name: 'Piston from top to bottom dead centre: work',
  source: 'closed form p1 V1 (1 - r^-0.4) / 0.4',
  unit: 'J',
  error: 'relative',
  limit: 0.001,
  measure: () => ({
    expected: (1e5 * cylinderVolume(ENGINE, 0) * (1 - ENGINE.compressionRatio ** -0.4)) / 0.4,
    got: moved(0, 180).work,
  }),
};

const VESSEL = { pressure: 8e5, temperature: 900, burned: 0 };
const [VOLUME, THROAT] = [5e-4, 2e-4];

/** Time, s, in which a vessel discharges through a choked throat to a pressure: from the pressure's own closed form. */
function dischargeTime(ratio: number): number {
  const g = 1.4;
  const sound = Math.sqrt(g * 287.055 * VESSEL.temperature);
  const rate = ((g - 1) / 2) * (2 / (g + 1)) ** ((g + 1) / (2 * (g - 1))) * ((THROAT * sound) / VOLUME);
  return (ratio ** (-(g - 1) / (2 * g)) - 1) / rate;
}

/** The same through a pipe of ten times the throat's area that leads to a low pressure. */
function discharged(ratio: number): number {
  const duct = fillDuct(ductShape({ length: 0.3, cells: 30, area: () => 10 * THROAT }), GASES, () => ({
    density: 2e4 / (287.055 * 500),
    velocity: 0,
    pressure: 2e4,
    burned: 0,
  }));
  const network = gasNetwork({
    gases: GASES,
    ducts: [duct],
    ends: [
      { duct: 0, side: 'start', kind: 'volume', volume: 0, share: 0.1 },
      { duct: 0, side: 'end', kind: 'open', share: 1, beyond: { pressure: 2e4, temperature: 500, burned: 0 } },
    ],
    volumes: [filledVolume(GASES, VOLUME, VESSEL)],
  });
  const over = (): number => reservoirOf(network.volumes[0]!, GASES).pressure / VESSEL.pressure;
  let [now, last] = [0, 1];
  for (;;) {
    const dt = stepNetwork(network, 1e-5, false);
    const is = over();
    now += dt;
    if (is <= ratio) return now - (dt * (ratio - is)) / (last - is);
    last = is;
  }
}

const blowDown = (ratio: number): VerificationRow => ({
  name: `Choked blow-down of a vessel to ${ratio} of its pressure: time`,
  source: 'closed form: p/p0 = (1 + (g-1)/2 (2/(g+1))^((g+1)/(2(g-1))) A a0 t/V)^(-2g/(g-1))',
  unit: 's',
  error: 'relative',
  limit: 0.005,
  measure: () => ({ expected: dischargeTime(ratio), got: discharged(ratio) }),
});

export const cylinderRows: readonly VerificationRow[] = [compression, expansion, blowDown(0.7), blowDown(0.4)];
