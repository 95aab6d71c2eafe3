/** Densities of plate, kg/m3, by words of its material. */
const DENSITIES: readonly { readonly words: RegExp; readonly density: number }[] = [
  // EN 10088-1: 1.4301 (304) and 1.4541 (321) 7900, 1.4512 (409) 7700.
  { words: /\b(409|410|1\.4512)/i, density: 7700 },
  { words: /stainless|inox|\b(304|316|321|347|1\.4[345])/i, density: 7900 },
  // Common practice for wrought titanium and aluminium alloys, no single source.
  { words: /titan/i, density: 4510 },
  { words: /alumin/i, density: 2700 },
];

/** EN 1993-1-2 and EN 10220: carbon steel. */
const STEEL = 7850;

/** Density of a plate, kg/m3, from the words that name its material; steel where they say nothing else. */
export const plateDensity = (material: string): number => knownDensity(material) ?? STEEL;

/** Density, kg/m3, of a material whose words name it; null where they do not. */
export const knownDensity = (material: string): number | null =>
  DENSITIES.find((d) => d.words.test(material))?.density ??
  (/steel|carbon|\b(mild|cs|s235|s355|st37)\b/i.test(material) ? STEEL : null);
