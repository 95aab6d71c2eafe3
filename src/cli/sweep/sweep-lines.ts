import type { SweptDesign } from './sweep-designs.js';

/** The first line of a sweep's output: shards of one sweep have the same but for `shard`. */
export interface SweepHead {
  readonly schema: 'evenrun-sweep-1';
  readonly plan: string;
  /** Of the plan's text before anything is varied, and of the files it names. */
  readonly plan_hash: string;
  readonly vary: readonly { readonly field: string; readonly values: readonly (number | string)[] }[];
  readonly effort: number;
  readonly designs: number;
  /** Which part of the designs follows: [2, 8] is the second of eight. */
  readonly shard: readonly [number, number];
}

/** Lines of one file of a sweep. Throws RangeError naming the line that is none. */
export function readSweep(text: string, file: string): { head: SweepHead; designs: SweptDesign[] } {
  const lines = text.split('\n').filter((l) => l !== '');
  const read = lines.map((line, i): unknown => {
    try {
      return JSON.parse(line);
    } catch {
      throw new RangeError(`${file}:${i + 1}: not a line of a sweep; a run that was cut off leaves such a last line`);
    }
  });
  const [head, ...designs] = read as [SweepHead | undefined, ...SweptDesign[]];
  if (head?.schema !== 'evenrun-sweep-1') throw new RangeError(`${file}:1: not the head of a sweep`);
  designs.forEach((d, i) => {
    if (!Number.isInteger(d?.design) || d.design < 0 || d.design >= head.designs) {
      throw new RangeError(`${file}:${i + 2}: not a design of this sweep of ${head.designs}`);
    }
  });
  return { head, designs };
}

/**
 * Files of one sweep as one: every design once, in order, whatever the order and number of the files. Throws RangeError for files of
 * different sweeps, for two answers to one design and for designs that are missing.
 */
export function mergedSweep(files: readonly { readonly name: string; readonly text: string }[]): string {
  const read = files.map(({ name, text }) => ({ name, ...readSweep(text, name) }));
  const whole = (head: SweepHead): SweepHead => ({ ...head, shard: [1, 1] });
  const first = read[0]!;
  const head = JSON.stringify(whole(first.head));
  const lines = new Map<number, { readonly name: string; readonly line: string }>();
  for (const { name, head: other, designs } of read) {
    if (JSON.stringify(whole(other)) !== head)
      throw new RangeError(`${name} is not of the same sweep as ${first.name}`);
    for (const design of designs) {
      const line = JSON.stringify(design);
      const known = lines.get(design.design);
      if (known && known.line !== line) {
        throw new RangeError(`${known.name} and ${name} have different answers for design ${design.design}`);
      }
      lines.set(design.design, { name, line });
    }
  }
  const { designs: count } = first.head;
  const missing = Array.from({ length: count }, (_, i) => i).filter((i) => !lines.has(i));
  if (missing.length > 0) {
    const some = missing.slice(0, 5).join(', ');
    throw new RangeError(
      `${missing.length} of ${count} designs are missing: ${some}${missing.length > 5 ? ', ...' : ''}`,
    );
  }
  const ordered = Array.from({ length: count }, (_, i) => lines.get(i)!.line);
  return `${[head, ...ordered].join('\n')}\n`;
}
