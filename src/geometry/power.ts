/**
 * x to the power y, for x of 0 and more, within a few units of the last digit. The language leaves the last digit of its own `**` open, and engines
 * differ in it: Node 20 and 22 give other bytes than Node 24. Their logarithm and exponential are alike, and so is `** 2` (one product)
 * and a power of two.
 */
export const power = (x: number, y: number): number => Math.exp(y * Math.log(x));
