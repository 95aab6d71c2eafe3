/** Tubes as people say them: 'cylinders 1 and 2', 'cylinder 1 and secondary from front'. */
export function tubesInWords(names: readonly string[]): string {
  const numbers = names.map((n) => /^cylinder (\d+)$/.exec(n)?.[1]);
  if (names.length > 1 && numbers.every((n) => n !== undefined)) {
    return `cylinders ${[...numbers].sort((a, b) => Number(a) - Number(b)).join(' and ')}`;
  }
  return names.join(' and ');
}
