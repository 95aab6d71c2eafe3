import type { Random } from './random.js';

/** What stands in a file where a value should: sizes beyond reason, other types, words of the language, of HTML, of spreadsheets and of paths. */
const RUBBISH: readonly string[] = [
  '0',
  '-0',
  '-1',
  '1e9',
  '1e-9',
  '1e308',
  '-1e308',
  '1e309',
  '.nan',
  '.inf',
  '-.inf',
  '0x1F',
  '1_000',
  '007',
  '9007199254740993',
  '3.',
  '.5',
  '1,5',
  '"1.75 in"',
  '"44 furlongs"',
  '"1e400 mm"',
  '" 12 mm "',
  'null',
  '~',
  'true',
  'no',
  '""',
  "''",
  '[]',
  '{}',
  '[[[]]]',
  '[0]',
  '[0, 0]',
  '[0, 0, 0]',
  '[1, 2, 3, 4]',
  '[.nan, 0, 0]',
  '[0, 0, 1e-300]',
  '[1e9, 0, 0]',
  '{ a: 1 }',
  '{ kind: round }',
  '{ kind: traced, file: a.dxf }',
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  '<script>alert(1)</script>',
  '"=HYPERLINK(1)"',
  '"@SUM(1)"',
  '../../../../etc/passwd',
  '/dev/zero',
  '"a\\u0000b"',
  '"\\u202e"',
  '"\\ud800"',
  '2024-01-01',
  '!!binary aGk=',
  '&a [*a]',
  '*nowhere',
  '<<',
  '|',
  '? x',
  '%YAML 1.1',
  '---',
  '...',
  '"',
  '{',
  '}',
  '[',
  'a: b: c',
  '- -',
  '\t',
  '\u0000',
  '\u0007',
  '\ufeff',
  '\u00a0',
  'é',
  '🔧',
  'x'.repeat(2000),
  '9'.repeat(400),
  '['.repeat(100),
];

const KEYS: readonly string[] = [
  '__proto__',
  'constructor',
  '<<',
  'unknown',
  'lenght',
  'at',
  'kind',
  'length',
  '1',
  '""',
  'ports',
];

/** One change to a text of lines: of a value, a field's name, a line, a run of characters or one byte. */
export function mutated(text: string, random: Random): string {
  const lines = text.split('\n');
  const at = random.below(lines.length);
  const line = lines[at]!;
  const put = (...by: string[]): string => [...lines.slice(0, at), ...by, ...lines.slice(at + 1)].join('\n');
  switch (random.below(12)) {
    case 0:
      return put();
    case 1:
      return put(line, line);
    case 2: {
      const other = random.below(lines.length);
      const copy = [...lines];
      [copy[at], copy[other]] = [lines[other]!, line];
      return copy.join('\n');
    }
    case 3:
      return put(line.replace(/^(\s*(?:- )?(?:\{ )?)[\w-]+:/, (_, head: string) => `${head}${random.of(KEYS)}:`));
    case 4:
      return put(`${random.of(['', ' ', '  ', '\t'])}${line}`);
    case 5: {
      const from = random.below(text.length);
      return text.slice(0, from) + text.slice(from + random.below(40));
    }
    case 6: {
      const from = random.below(text.length);
      return text.slice(0, from) + random.of(RUBBISH) + text.slice(from);
    }
    case 7:
      return text.slice(0, random.below(text.length));
    case 8:
      return put(numberChanged(line, random, random.of(RUBBISH)));
    case 9:
    case 10:
      return put(numberChanged(line, random, String(scaled(line, random))));
    default:
      return put(line.replace(/:\s.*$/, () => `: ${random.of(RUBBISH)}`));
  }
}

const NUMBER = /-?\d+(?:\.\d+)?/g;

function numberChanged(line: string, random: Random, by: string): string {
  const found = [...line.matchAll(NUMBER)];
  if (found.length === 0) return line;
  const { index, 0: old } = random.of(found);
  return line.slice(0, index) + by + line.slice(index + old.length);
}

/** A number near one of the line's: such plans are often sound, and reach the stages behind the reader. */
function scaled(line: string, random: Random): number {
  const found = line.match(NUMBER) ?? ['1'];
  return Math.round(Number(random.of(found)) * random.of([0.5, 0.9, 0.99, 1.01, 1.1, 2, 10, -1]) * 1000) / 1000;
}

/** Bytes changed, lost or put in. */
export function mutatedBytes(bytes: Uint8Array, random: Random): Uint8Array {
  const copy = [...bytes];
  const at = random.below(copy.length);
  switch (random.below(5)) {
    case 0:
      copy[at] = random.below(256);
      break;
    case 1:
      copy.splice(at, 1 + random.below(60));
      break;
    case 2:
      copy.splice(at, 0, ...Array.from({ length: 1 + random.below(60) }, () => random.below(256)));
      break;
    case 3:
      copy.length = at;
      break;
    default:
      for (let i = 0; i < 4; i++) copy[(at + i) % copy.length] = random.of([0, 0x7f, 0x80, 0xff]);
  }
  return Uint8Array.from(copy);
}
