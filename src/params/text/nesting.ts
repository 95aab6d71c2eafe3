import { DEEPEST_NESTING } from '../limits.js';

/**
 * Line (from 1) on which a text nests deeper than any plan does, or null. A rough count by brackets, indentation and list dashes
 * before parsing: parsers recurse, and a hostile text of dashes can end the process where no error can be caught.
 */
export function tooDeepLine(text: string): number | null {
  let depth = 0;
  const lines = text.split(/\r\n|\r|\n/);
  for (const [i, line] of lines.entries()) {
    const content = line.trimStart();
    if (content.startsWith('#')) continue;
    if (content !== '' && line.length - content.length > 4 * DEEPEST_NESTING) return i + 1;
    if ((content.match(/(?:^|\s)[-?:](?=\s|$)/g)?.length ?? 0) > DEEPEST_NESTING) return i + 1;
    for (const c of content) {
      if (c === '[' || c === '{') depth++;
      else if (c === ']' || c === '}') depth = Math.max(0, depth - 1);
      if (depth > DEEPEST_NESTING) return i + 1;
    }
  }
  return null;
}
