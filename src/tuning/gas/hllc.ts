import type { DuctGas } from './duct-gas.js';

/**
 * Fluxes through every face between two cells from the gas on both its sides, by the HLLC solver (E. F. Toro, M. Spruce, W. Speares,
 * Shock Waves 4, 1994) with Davis' wave speeds. Ratios of heats are those in the middle of the two cells.
 */
export function hllc(duct: DuctGas): void {
  const { atEnd, atStart, gamma, gases, fluxMass, fluxMomentum, fluxEnergy, fluxBurned } = duct;
  const { fresh, burned } = gases;
  const [f0, f1, f2] = fresh.cv;
  const [d0, d1, d2] = [burned.cv[0] - f0, burned.cv[1] - f1, burned.cv[2] - f2];
  const r0 = fresh.r;
  const dr = burned.r - r0;
  for (let i = 1; i < gamma.length; i++) {
    const k = 4 * i;
    const rl = atEnd[k - 4]!;
    const ul = atEnd[k - 3]!;
    const pl = atEnd[k - 2]!;
    const rr = atStart[k]!;
    const ur = atStart[k + 1]!;
    const pr = atStart[k + 2]!;
    const al = Math.sqrt((gamma[i - 1]! * pl) / rl);
    const ar = Math.sqrt((gamma[i]! * pr) / rr);
    const sl = Math.min(ul - al, ur - ar);
    const sr = Math.max(ul + al, ur + ar);
    const ql = rl * (sl - ul);
    const qr = rr * (sr - ur);
    const middle = (pr - pl + ul * ql - ur * qr) / (ql - qr);
    // the flux is that of the side the contact comes from, and of its wave when that has not passed the face
    const left = middle >= 0;
    const s = left ? sl : sr;
    const rho = left ? rl : rr;
    const u = left ? ul : ur;
    const p = left ? pl : pr;
    const y = left ? atEnd[k - 1]! : atStart[k + 3]!;
    const t = p / (rho * (r0 + y * dr));
    const e = t * (f0 + y * d0 + t * ((f1 + y * d1) / 2 + (t * (f2 + y * d2)) / 3));
    const energy = rho * (e + (u * u) / 2);
    let m = rho * u;
    let f = m * u + p;
    let h = u * (energy + p);
    if (left ? s < 0 : s > 0) {
      const q = left ? ql : qr;
      const star = q / (s - middle);
      const whole = star * (energy / rho + (middle - u) * (middle + p / q));
      m += s * (star - rho);
      f += s * (star * middle - rho * u);
      h += s * (whole - energy);
    }
    fluxMass[i] = m;
    fluxMomentum[i] = f;
    fluxEnergy[i] = h;
    fluxBurned[i] = m * y;
  }
}
