import { inches, type LengthUnit } from '../../params/units.js';

/** A length in mm as people of a plan's unit read it: tenths of a millimetre, hundredths of an inch. */
export const lengthFigure = (mm: number, unit: LengthUnit): string =>
  unit === 'in' ? `${inches(mm).toFixed(2)} in` : `${mm.toFixed(1)} mm`;

/** An area in mm2 likewise. */
export const areaFigure = (mm2: number, unit: LengthUnit): string =>
  unit === 'in' ? `${(mm2 / 25.4 ** 2).toFixed(3)} in2` : `${mm2.toFixed(0)} mm2`;

/** A volume in mm3 likewise: cm3, cubic inches. */
export const volumeFigure = (mm3: number, unit: LengthUnit): string =>
  unit === 'in' ? `${(mm3 / (25.4 * 25.4 * 25.4)).toFixed(1)} in3` : `${(mm3 / 1000).toFixed(0)} cm3`;

/** A gas speed in m/s likewise. */
export const speedFigure = (metres: number, unit: LengthUnit): string =>
  unit === 'in' ? `${(metres / 0.3048).toFixed(0)} ft/s` : `${metres.toFixed(0)} m/s`;

/** 'least .. most, median', each in words. */
export const spreadFigure = (
  { least, median, most }: { readonly least: number; readonly median: number; readonly most: number },
  figure: (value: number) => string,
): string => `${figure(least)} to ${figure(most)}, median ${figure(median)}`;
