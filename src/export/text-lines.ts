/** Words in lines of no more than `width` signs, where the words allow. */
export function textLines(text: string, width: number): string[] {
  const lines = [''];
  for (const word of text.split(' ')) {
    const last = lines.at(-1)!;
    if (last !== '' && last.length + 1 + word.length > width) lines.push(word);
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`;
  }
  return lines;
}
