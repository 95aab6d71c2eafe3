import type { DuctGas } from './duct-gas.js';

/**
 * First half of a step of `dt` s: the gas at both ends of every cell half a step later, from slopes limited by van Leer's function and
 * the quasi-one-dimensional Euler equations (MUSCL-Hancock: B. van Leer 1984; E. F. Toro, Riemann Solvers, ch. 14). What slopes is
 * density, pressure, burned gas and velocity times area: where the section jumps that product does not, so that the two sides of a face
 * agree. End cells take the slope to their neighbour.
 */
export function predict(duct: DuctGas, dt: number): void {
  const { density, velocity, pressure, burned, gamma, atStart, atEnd, halfPressure } = duct;
  const { dx, faceArea, area } = duct.shape;
  const n = density.length;
  const half = dt / 2;
  for (let i = 0; i < n; i++) {
    const l = i === 0 ? 0 : i - 1;
    const r = i === n - 1 ? i : i + 1;
    const rho = density[i]!;
    const u = velocity[i]!;
    const p = pressure[i]!;
    const y = burned[i]!;
    const middle = area[i]!;
    const q = u * middle;
    const ql = velocity[l]! * area[l]!;
    const qr = velocity[r]! * area[r]!;
    const inner = l < i && i < r;
    let sr = inner ? limited(rho - density[l]!, density[r]! - rho) : density[r]! - density[l]!;
    let sq = inner ? limited(q - ql, qr - q) : qr - ql;
    let sp = inner ? limited(p - pressure[l]!, pressure[r]! - p) : pressure[r]! - pressure[l]!;
    let sy = inner ? limited(y - burned[l]!, burned[r]! - y) : 0;
    const g = gamma[i]! * p;
    let dr = (-half / dx) * (u * sr + (rho * sq) / middle);
    let dp = (-half / dx) * (u * sp + (g * sq) / middle);
    if (Math.abs(sr) / 2 - dr >= 0.9 * rho || Math.abs(sp) / 2 - dp >= 0.9 * p) {
      // next to a vacuum a slope would leave nothing at the face: this cell stays flat
      sr = 0;
      sq = 0;
      sp = 0;
      sy = 0;
      dr = 0;
      dp = 0;
    }
    const before = faceArea[i]!;
    const after = faceArea[i + 1]!;
    const dq = (-half / dx) * (u * (sq - u * (after - before)) + (middle * sp) / rho);
    const dy = (-half / dx) * u * sy;
    const k = 4 * i;
    atStart[k] = rho + dr - sr / 2;
    atEnd[k] = rho + dr + sr / 2;
    atStart[k + 1] = (q + dq - sq / 2) / before;
    atEnd[k + 1] = (q + dq + sq / 2) / after;
    atStart[k + 2] = p + dp - sp / 2;
    atEnd[k + 2] = p + dp + sp / 2;
    atStart[k + 3] = y + dy - sy / 2;
    atEnd[k + 3] = y + dy + sy / 2;
    halfPressure[i] = p + dp;
  }
}

/** Van Leer's limited slope of two differences: their harmonic mean where they agree in sign, else none. */
function limited(a: number, b: number): number {
  const product = a * b;
  return product > 0 ? (2 * product) / (a + b) : 0;
}

/** Second half of a step: what came through the faces, and the push of the walls where the section changes. */
export function update(duct: DuctGas, dt: number): void {
  const { mass, momentum, energy, burnedMass, halfPressure } = duct;
  const { fluxMass, fluxMomentum, fluxEnergy, fluxBurned } = duct;
  const { faceArea, volume } = duct.shape;
  for (let i = 0; i < mass.length; i++) {
    const a = faceArea[i]!;
    const b = faceArea[i + 1]!;
    const k = dt / volume[i]!;
    mass[i]! -= k * (b * fluxMass[i + 1]! - a * fluxMass[i]!);
    momentum[i]! -= k * (b * fluxMomentum[i + 1]! - a * fluxMomentum[i]! - halfPressure[i]! * (b - a));
    energy[i]! -= k * (b * fluxEnergy[i + 1]! - a * fluxEnergy[i]!);
    burnedMass[i]! -= k * (b * fluxBurned[i + 1]! - a * fluxBurned[i]!);
  }
}
