/** Letters to insert, delete or replace to get from one word to the other (Levenshtein 1965); two swapped neighbours count as two. */
export function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, row[j]! + 1, next[j - 1]! + 1));
    }
    row = next;
  }
  return row[b.length]!;
}

/**
 * The known name a mistyped one most likely means, or null when none is near: M7 is not a slip for M6.
 */
export function nearestName(name: string, known: readonly string[]): string | null {
  if (name.length > 60) return null;
  const plain = (s: string) => s.toLowerCase().replaceAll(/[\s-]/g, '_');
  let best: string | null = null;
  let least = slipsIn(name.length) + 1;
  for (const candidate of known) {
    const d = editDistance(plain(name), plain(candidate));
    if (d < least && d < candidate.length) {
      least = d;
      best = candidate;
    }
  }
  return best;
}

/** Letters that may be wrong in a name of so many: a third, two of five and more, one of three or four, none of two. */
function slipsIn(letters: number): number {
  if (letters > 4) return Math.max(2, Math.floor(letters / 3));
  return letters > 2 ? 1 : 0;
}
