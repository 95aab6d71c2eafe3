/** A length for people: '123.4 mm', for a plan in inches '123.4 mm (4.858 in)'. */
export const shownLength = (mm: number, units: 'mm' | 'in', digits = 1): string =>
  units === 'mm' ? `${plain(mm, digits)} mm` : `${plain(mm, digits)} mm (${plain(mm / 25.4, digits + 2)} in)`;

/** '1256 mm\u00b2', for a plan in inches with square inches behind it. */
export const shownArea = (mm2: number, units: 'mm' | 'in'): string =>
  units === 'mm' ? `${plain(mm2, 0)} mm\u00b2` : `${plain(mm2, 0)} mm\u00b2 (${plain(mm2 / 25.4 ** 2, 3)} in\u00b2)`;

/** '45.0\u00b0'. */
export const shownAngle = (rad: number): string => `${plain((rad * 180) / Math.PI, 1)}\u00b0`;

/** With a fixed number of digits and never '-0.0'. */
function plain(v: number, digits: number): string {
  const text = v.toFixed(digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text;
}
