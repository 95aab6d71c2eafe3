/** The words between two facets' numbers, in the order they must come; `#` stands for a number. */
const FACET = 'facet normal # # # outer loop vertex # # # vertex # # # vertex # # # endloop endfacet'.split(' ');

/** Words of a facet whose numbers are the normal, which is not looked at. */
const NORMAL_END = 5;

/** Longest word of a text STL, bytes: no number needs more. */
const LONGEST_WORD = 60;

/**
 * Corners of the triangles of a text STL, nine numbers each. Solids may follow one another. Throws RangeError with the line for a
 * word that should not stand there or a file that ends early, and for more than `most` triangles.
 */
export function readStlText(bytes: Uint8Array, most: number): Float64Array {
  const words = wordsOf(bytes);
  let positions: Float64Array = new Float64Array(9 * 1024);
  let length = 0;
  let word = words.next();
  while (word !== '') {
    if (word.replace('\u00EF\u00BB\u00BF', '') !== 'solid') throw words.unexpected('solid', word);
    words.skipLine();
    for (word = words.next(); word === 'facet'; word = words.next()) {
      if (length >= 9 * most) throw new RangeError(`it has more than ${most} triangles; thin it out`);
      if (length === positions.length) positions = grown(positions);
      length = facet(words, positions, length);
    }
    if (word !== 'endsolid') throw words.unexpected('facet or endsolid', word);
    words.skipLine();
    word = words.next();
  }
  return positions.slice(0, length);
}

/** Reads one facet after its first word; gives where the next one goes. */
function facet(words: Words, positions: Float64Array, at: number): number {
  let next = at;
  for (let i = 1; i < FACET.length; i++) {
    const [wanted, word] = [FACET[i]!, words.next()];
    if (wanted !== '#') {
      if (word !== wanted) throw words.unexpected(wanted, word);
    } else if (i >= NORMAL_END) {
      const value = Number(word);
      if (word === '' || !Number.isFinite(value)) throw words.unexpected('a number', word);
      positions[next++] = value;
    } else if (word === '') throw words.unexpected('a number', word);
  }
  return next;
}

function grown(positions: Float64Array): Float64Array {
  const larger = new Float64Array(2 * positions.length);
  larger.set(positions);
  return larger;
}

interface Words {
  /** The next word in lower case; empty at the end. */
  readonly next: () => string;
  readonly skipLine: () => void;
  readonly unexpected: (wanted: string, found: string) => RangeError;
}

const [SPACE, LINE_FEED, RETURN] = [32, 10, 13];

/** The words of a text, byte by byte: a scan of a hundred megabytes is not made into one string. */
function wordsOf(bytes: Uint8Array): Words {
  let at = 0;
  const endsLine = (byte: number): boolean => byte === LINE_FEED || byte === RETURN;
  const lineAt = (end: number): number => {
    let line = 1;
    for (let i = 0; i < end; i++)
      if (bytes[i] === LINE_FEED || (bytes[i] === RETURN && bytes[i + 1] !== LINE_FEED)) line++;
    return line;
  };
  let start = 0;
  return {
    next: () => {
      while (at < bytes.length && bytes[at]! <= SPACE) at++;
      start = at;
      while (at < bytes.length && bytes[at]! > SPACE) at++;
      if (at - start > LONGEST_WORD) throw new RangeError(`line ${lineAt(start)} is no line of a text STL`);
      return String.fromCharCode(...bytes.subarray(start, at)).toLowerCase();
    },
    skipLine: () => {
      while (at < bytes.length && !endsLine(bytes[at]!)) at++;
    },
    unexpected: (wanted, found) =>
      new RangeError(
        `line ${lineAt(start)} of the text STL: expected ${wanted}, found ${found === '' ? 'the end' : JSON.stringify(found)}`,
      ),
  };
}
