/** Density, velocity, pressure. */
export type Primitive = readonly [density: number, velocity: number, pressure: number];

/** What stands between the two waves of a Riemann problem. */
export interface StarState {
  readonly pressure: number;
  readonly velocity: number;
  readonly left: number;
  readonly right: number;
}

/**
 * The exact solution of the Riemann problem of a perfect gas: Newton's method on the pressure between the waves (E. F. Toro, Riemann
 * Solvers and Numerical Methods for Fluid Dynamics, ch. 4).
 */
export function starState(l: Primitive, r: Primitive, g: number): StarState {
  const sound = (s: Primitive): number => Math.sqrt((g * s[2]) / s[0]);
  const wave = (p: number, [rho, , ps]: Primitive, a: number): [f: number, slope: number] => {
    if (p > ps) {
      const [A, B] = [2 / ((g + 1) * rho), ((g - 1) / (g + 1)) * ps];
      const q = Math.sqrt(A / (p + B));
      return [(p - ps) * q, q * (1 - (p - ps) / (2 * (B + p)))];
    }
    return [
      ((2 * a) / (g - 1)) * ((p / ps) ** ((g - 1) / (2 * g)) - 1),
      (1 / (rho * a)) * (p / ps) ** (-(g + 1) / (2 * g)),
    ];
  };
  const [al, ar] = [sound(l), sound(r)];
  // two rarefactions are a lower bound that Newton's method climbs from
  const z = (g - 1) / (2 * g);
  let p = ((al + ar - ((g - 1) / 2) * (r[1] - l[1])) / (al / l[2] ** z + ar / r[2] ** z)) ** (1 / z);
  for (let k = 0; k < 200; k++) {
    const [fl, dl] = wave(p, l, al);
    const [fr, dr] = wave(p, r, ar);
    const next = Math.max(p - (fl + fr + r[1] - l[1]) / (dl + dr), 1e-12);
    const done = Math.abs(next - p) < 1e-15 * p;
    p = next;
    if (done) break;
  }
  const density = ([rho, , ps]: Primitive): number => {
    const k = (g - 1) / (g + 1);
    return p > ps ? (rho * (p / ps + k)) / (k * (p / ps) + 1) : rho * (p / ps) ** (1 / g);
  };
  const velocity = (l[1] + r[1]) / 2 + (wave(p, r, ar)[0] - wave(p, l, al)[0]) / 2;
  return { pressure: p, velocity, left: density(l), right: density(r) };
}

/** The exact solution at a speed x / t from where the two gases met. */
export function riemannAt(l: Primitive, r: Primitive, g: number, speed: number): Primitive {
  const star = starState(l, r, g);
  const right = speed > star.velocity;
  // seen from the side the speed lies on, mirrored for the right, so that the wave runs to the left
  const sign = right ? -1 : 1;
  const [rho, u0, p] = right ? r : l;
  const [u, s, us] = [sign * u0, sign * speed, sign * star.velocity];
  const a = Math.sqrt((g * p) / rho);
  const inner = right ? star.right : star.left;
  if (star.pressure > p) {
    const shock = u - a * Math.sqrt((((g + 1) / (2 * g)) * star.pressure) / p + (g - 1) / (2 * g));
    return s < shock ? [rho, u0, p] : [inner, star.velocity, star.pressure];
  }
  const tail = us - Math.sqrt((g * star.pressure) / inner);
  if (s <= u - a) return [rho, u0, p];
  if (s >= tail) return [inner, star.velocity, star.pressure];
  const c = (2 / (g + 1)) * (a + ((g - 1) / 2) * (u - s));
  const ratio = c / a;
  return [rho * ratio ** (2 / (g - 1)), sign * (s + c), p * ratio ** ((2 * g) / (g - 1))];
}
