/** A fenced block of a text in Markdown. */
export interface CodeBlock {
  readonly language: string;
  readonly lines: readonly string[];
}

/** The fenced blocks of a text, in order. */
export const codeBlocks = (markdown: string): CodeBlock[] =>
  [...markdown.matchAll(/^```(\w*)\n([\s\S]*?)^```$/gm)].map(([, language, code]) => ({
    language: language!,
    lines: code!.trimEnd().split('\n'),
  }));

/** The path that the first line of a block is a comment of: `// src/checks/rules.ts`. */
export const pathOf = ({ lines }: CodeBlock): string => lines[0]!.replace(/^ ?\/\/ /, '');

/**
 * A text with the changes of a diff block: lines that stay are looked for one after the other, what is added goes behind the one before.
 * Throws RangeError for a line that is not there.
 */
export function patched(text: string, { lines }: CodeBlock): string {
  const out = text.split('\n');
  let at = -1;
  for (const line of lines.slice(1)) {
    const [sign, rest] = [line[0], line.slice(1)];
    if (sign === '+') {
      out.splice(++at, 0, rest);
      continue;
    }
    at = out.indexOf(rest, at + 1);
    if (at < 0) throw new RangeError(`no line ${JSON.stringify(rest)}`);
    if (sign === '-') out.splice(at--, 1);
  }
  return out.join('\n');
}
