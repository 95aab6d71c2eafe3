import { parse, stringify } from 'yaml';

/** Fields whose plain numbers are no lengths: counts, angles, directions, ratios, seeds. */
const NO_LENGTH = new Set(
  `evenrun cylinders cylinder firing_order compression_ratio rpm bank_angle direction facing up clocking rotation turn angle tilt max_angle
   merge_half_angle order count seed weights budget infill walls density overhang most_overhang least_clr price available
   exhaust_opens_bbdc exhaust_closes_atdc intake_opens_btdc intake_closes_abdc gas_temperature volume`.split(/\s+/),
);

/** A plan in mm written in inches: every plain number that is a length over 25.4. */
export function inInches(text: string): string {
  const convert = (value: unknown, key: string): unknown => {
    if (NO_LENGTH.has(key)) return value;
    if (typeof value === 'number') return value / 25.4;
    if (Array.isArray(value)) return value.map((v) => convert(v, key));
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, convert(v, k)]));
  };
  return stringify({ ...(convert(parse(text), '') as object), units: 'in' });
}
