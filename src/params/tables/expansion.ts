import type { FlangeMetal, HeadMetal } from '../plan/flange.js';

/** 0 degrees Celsius, K. */
export const FREEZING = 273.15;

/** Lowest and highest temperature the figures here are used for, degrees Celsius. EN 1993-1-2 gives carbon steel up to 750. */
export const EXPANSION_RANGE = { from: -40, to: 750 } as const;

/** Mean coefficients from 20 degrees Celsius, 1e-6 per K, at rising temperatures; held beyond the first and the last. */
type MeanTable = readonly (readonly [celsius: number, mean: number])[];

/** EN 10088-1, 1.4301 and 1.4541 (304, 321). */
const AUSTENITIC: MeanTable = [
  [100, 16.0],
  [200, 16.5],
  [300, 17.0],
  [400, 17.5],
  [500, 18.0],
];

/** EN 10088-1, 410S as the nearest listed to 1.4512 (409). */
const FERRITIC: MeanTable = [
  [100, 10.5],
  [200, 11.0],
  [300, 11.5],
  [400, 12.0],
  [500, 12.0],
];

/** Aluminium casting alloys, from memory: the coefficient of pure aluminium about room temperature. */
const ALUMINIUM: MeanTable = [[20, 23.1]];

/** Grey cast iron, from memory. */
const CAST_IRON: MeanTable = [
  [100, 10.5],
  [400, 12.0],
];

/** Where the table of EN 10088-1 ends, degrees Celsius. */
const TABLE_END = 500;

/**
 * Free expansion of a metal, mm per mm, from 20 degrees Celsius to a temperature in K. Carbon steel: EN 1993-1-2, 3.4.1.1.
 * Austenitic: EN 10088-1 up to 500 degrees, beyond it EN 1993-1-2 annex C (from memory). The others by their tables.
 */
export function expansionFrom20(metal: FlangeMetal | HeadMetal, kelvin: number): number {
  const celsius = kelvin - FREEZING;
  switch (metal) {
    case 'carbon_steel':
      return carbonSteel(celsius);
    case 'austenitic':
      return celsius > TABLE_END ? austeniticAbove(celsius) : byTable(AUSTENITIC, celsius);
    case 'ferritic':
      return byTable(FERRITIC, celsius);
    case 'aluminium':
      return byTable(ALUMINIUM, celsius);
    case 'cast_iron':
      return byTable(CAST_IRON, celsius);
  }
}

/** Expansion of one length of metal between two temperatures, K, mm per mm. */
export const expansionBetween = (metal: FlangeMetal | HeadMetal, cold: number, hot: number): number =>
  (1 + expansionFrom20(metal, hot)) / (1 + expansionFrom20(metal, cold)) - 1;

const carbonSteel = (t: number): number => 1.2e-5 * t + 0.4e-8 * t * t - 2.416e-4;

const austeniticAbove = (t: number): number => (16 + 4.79e-3 * t - 1.243e-6 * t * t) * (t - 20) * 1e-6;

function byTable(table: MeanTable, celsius: number): number {
  const above = table.findIndex(([t]) => celsius <= t);
  const [t1, m1] = table[above < 0 ? table.length - 1 : above]!;
  const [t0, m0] = table[Math.max((above < 0 ? table.length : above) - 1, 0)]!;
  const mean = t1 === t0 || above < 0 ? m1 : m0 + ((m1 - m0) * (celsius - t0)) / (t1 - t0);
  return mean * (celsius - 20) * 1e-6;
}

/**
 * The kind of steel the words for a plate's material name: carbon steel where they say nothing else. Numbers of EN 10088-1, and of the
 * heat-resisting steels of EN 10095 (1.47 ferritic, 1.48 austenitic; from memory).
 */
export function flangeMetalOf(material: string): FlangeMetal {
  if (/\b(409|410|430|439|1\.40|1\.45[01]|1\.47)/i.test(material)) return 'ferritic';
  if (/stainless|inox|austenit|\b(304|309|310|316|321|347|1\.4[3458])/i.test(material)) return 'austenitic';
  return 'carbon_steel';
}
