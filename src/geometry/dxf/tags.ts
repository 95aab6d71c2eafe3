/** A group of a DXF: its code, its value as text, and the line the value stands on, from 1. */
export interface DxfTag {
  readonly code: number;
  readonly value: string;
  readonly line: number;
}

/** Group codes are whole numbers of this size; what is far larger is no DXF. */
const LARGEST_CODE = 1071;

/** The group code of a comment. */
const COMMENT = 999;

/**
 * The groups of an ASCII DXF one by one, comments (999) left out; null at the end of the text. Throws RangeError naming the line where
 * a group code is due and something else stands, or where the text ends between a code and its value.
 * Source: Autodesk DXF reference, `ASCII DXF files`: pairs of lines, code then value.
 */
export function dxfTags(text: string): () => DxfTag | null {
  let at = 0;
  let line = 0;
  const nextLine = (): string | null => {
    if (at >= text.length) return null;
    let end = text.indexOf('\n', at);
    if (end < 0) end = text.length;
    const content = text.slice(at, text[end - 1] === '\r' ? end - 1 : end);
    at = end + 1;
    line++;
    return content;
  };
  const next = (): DxfTag | null => {
    const code = nextLine();
    if (code === null || (code.trim() === '' && text.slice(at).trim() === '')) return null;
    if (!/^\s*-?\d{1,4}\s*$/.test(code) || Number(code) > LARGEST_CODE) {
      throw new RangeError(`line ${line}: expected a group code of a DXF, found ${quoted(code)}`);
    }
    const value = nextLine();
    if (value === null) throw new RangeError(`line ${line}: the file ends after a group code; it is cut short`);
    return { code: Number(code), value: value.trim(), line };
  };
  return () => {
    let tag = next();
    while (tag?.code === COMMENT) tag = next();
    return tag;
  };
}

/** A short piece of a text in quotes. */
export const quoted = (text: string): string => JSON.stringify(text.length > 40 ? `${text.slice(0, 40)}...` : text);

/** The number of a group. Throws RangeError naming the line when it is none. */
export function dxfNumber(tag: DxfTag): number {
  const value = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(tag.value) ? Number(tag.value) : Number.NaN;
  if (!Number.isFinite(value)) {
    throw new RangeError(`line ${tag.line}: expected a number for group ${tag.code}, found ${quoted(tag.value)}`);
  }
  return value;
}
