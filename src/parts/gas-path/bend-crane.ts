/** K of a 90 degree bend over the friction factor, by centreline radius over bore: Crane TP-410, p. A-29; those above 6 from memory. */
const RIGHT_ANGLE: readonly (readonly [radius: number, k: number])[] = [
  [1, 20],
  [1.5, 14],
  [2, 12],
  [3, 12],
  [4, 14],
  [6, 17],
  [8, 24],
  [10, 30],
  [12, 34],
  [14, 38],
  [16, 42],
  [20, 50],
];

/** Roughness of commercial steel pipe that Crane's factors stand for, mm. */
const COMMERCIAL_STEEL = 0.0457;

/** Friction factor of fully turbulent flow in clean commercial steel pipe of a bore, mm: von Karman's 0.25 / log10(roughness / 3.7 d)^2, as Crane TP-410 tabulates it. */
export const craneFriction = (bore: number): number => 0.25 / Math.log10(COMMERCIAL_STEEL / (3.7 * bore)) ** 2;

/** K over the friction factor of a 90 degree bend, straight lines between the rows of the table, its ends held. */
function rightAngle(radius: number): number {
  const above = RIGHT_ANGLE.findIndex(([r]) => radius <= r);
  if (above < 0) return RIGHT_ANGLE.at(-1)![1];
  const [r1, k1] = RIGHT_ANGLE[above]!;
  const [r0, k0] = RIGHT_ANGLE[Math.max(above - 1, 0)]!;
  return r1 === r0 ? k1 : k0 + ((k1 - k0) * (radius - r0)) / (r1 - r0);
}

/** Smallest bend, in quarter turns, the formula is used for; below it the loss falls straight to nothing, which has no source. */
const LEAST_TURN = 0.5;

/**
 * Loss coefficient of a bend by Crane TP-410, friction within it included: K = (n - 1)(0.25 pi f r/d + 0.5 K90) + K90 for n quarter turns,
 * published for whole ones. `radius` of the centreline over the bore; `bore` mm; `angle` rad.
 */
export function craneLoss(bore: number, radius: number, angle: number): number {
  const turns = angle / (Math.PI / 2);
  const formula = (n: number): number => (n - 1) * (0.25 * Math.PI * radius + 0.5 * k90) + k90;
  const k90 = rightAngle(radius);
  const k = turns < LEAST_TURN ? (formula(LEAST_TURN) * turns) / LEAST_TURN : formula(turns);
  return k * craneFriction(bore);
}
