import type { DuctGas } from './duct-gas.js';

/**
 * Flux through the face before cell `i` from the gas on both its sides, by the HLLC solver (E. F. Toro, M. Spruce, W. Speares, Shock
 * Waves 4, 1994) with Davis' wave speeds. Heats are those of the two cells' own temperatures.
 */
export function hllc(duct: DuctGas, i: number): void {
  const { atEnd, atStart, gases, fluxMass, fluxMomentum, fluxEnergy, fluxBurned } = duct;
  const l = 4 * (i - 1);
  const r = 4 * i;
  const rl = atEnd[l]!;
  const ul = atEnd[l + 1]!;
  const pl = atEnd[l + 2]!;
  const yl = atEnd[l + 3]!;
  const rr = atStart[r]!;
  const ur = atStart[r + 1]!;
  const pr = atStart[r + 2]!;
  const yr = atStart[r + 3]!;
  const { fresh, burned } = gases;
  const [f0, f1, f2] = fresh.cv;
  const [b0, b1, b2] = burned.cv;
  const gl = fresh.r + yl * (burned.r - fresh.r);
  const gr = fresh.r + yr * (burned.r - fresh.r);
  const tl = pl / (rl * gl);
  const tr = pr / (rr * gr);
  const l0 = f0 + yl * (b0 - f0);
  const l1 = f1 + yl * (b1 - f1);
  const l2 = f2 + yl * (b2 - f2);
  const r0 = f0 + yr * (b0 - f0);
  const r1 = f1 + yr * (b1 - f1);
  const r2 = f2 + yr * (b2 - f2);
  const al = Math.sqrt((1 + gl / (l0 + tl * (l1 + tl * l2))) * gl * tl);
  const ar = Math.sqrt((1 + gr / (r0 + tr * (r1 + tr * r2))) * gr * tr);
  const sl = Math.min(ul - al, ur - ar);
  const sr = Math.max(ul + al, ur + ar);
  const ql = rl * (sl - ul);
  const qr = rr * (sr - ur);
  const middle = (pr - pl + ul * ql - ur * qr) / (ql - qr);
  const left = middle >= 0;
  const s = left ? sl : sr;
  const rho = left ? rl : rr;
  const u = left ? ul : ur;
  const p = left ? pl : pr;
  const y = left ? yl : yr;
  const t = left ? tl : tr;
  const e = left ? tl * (l0 + tl * (l1 / 2 + (tl * l2) / 3)) : t * (r0 + t * (r1 / 2 + (t * r2) / 3));
  const energy = rho * (e + (u * u) / 2);
  const passed = left ? s >= 0 : s <= 0;
  let m = rho * u;
  let f = m * u + p;
  let h = u * (energy + p);
  if (!passed) {
    const star = (rho * (s - u)) / (s - middle);
    const whole = star * (energy / rho + (middle - u) * (middle + p / (rho * (s - u))));
    m += s * (star - rho);
    f += s * (star * middle - rho * u);
    h += s * (whole - energy);
  }
  fluxMass[i] = m;
  fluxMomentum[i] = f;
  fluxEnergy[i] = h;
  fluxBurned[i] = m * y;
}
