/** A label that wants to stand at a place along a line and needs a width there, mm. */
export interface Wanted {
  readonly at: number;
  readonly width: number;
}

/**
 * Middles of labels side by side in their order, each as near to where it wants to stand as the others let it, within `from` to
 * `to`. Neighbours that want the same place are moved as one group to the mean of what they want (pool of adjacent violators,
 * Ayer and others, 1955). Throws RangeError when they do not fit at all.
 */
export function spreadApart(wanted: readonly Wanted[], from: number, to: number): number[] {
  const whole = wanted.reduce((sum, w) => sum + w.width, 0);
  if (whole > to - from + 1e-6) throw new RangeError(`labels of ${whole} mm do not fit ${to - from} mm`);
  // Where each would begin were all those before it squeezed together to the left.
  let before = 0;
  const groups: { sum: number; count: number }[] = [];
  wanted.forEach(({ at, width }) => {
    groups.push({ sum: at - width / 2 - before, count: 1 });
    before += width;
    while (groups.length > 1 && mean(groups.at(-2)!) > mean(groups.at(-1)!)) {
      const last = groups.pop()!;
      const into = groups.at(-1)!;
      into.sum += last.sum;
      into.count += last.count;
    }
  });
  const starts = groups.flatMap((g) => Array<number>(g.count).fill(mean(g)));
  let squeezed = 0;
  return wanted.map(({ width }, i) => {
    const start = Math.min(Math.max(starts[i]!, from), to - whole) + squeezed;
    squeezed += width;
    return start + width / 2;
  });
}

const mean = (g: { readonly sum: number; readonly count: number }): number => g.sum / g.count;
