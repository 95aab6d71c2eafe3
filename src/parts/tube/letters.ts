/** The letters that count: A, B, ... Z, AA, AB, ... from 0 on. */
export function letters(i: number): string {
  const last = String.fromCharCode(65 + (i % 26));
  return i < 26 ? last : letters(Math.floor(i / 26) - 1) + last;
}
