/** Diameters of struts the program chooses from where the plan leaves them to it, mm, thinnest first. */
export const STRUT_SIZES: readonly number[] = [16, 20, 24, 28, 32];
