/** File names of heads' flanges: 'flange' for one head, else 'flange-' and each head's name in lower-case letters, digits and hyphens; a name met before gets a number. */
export function flangeNames(heads: readonly string[]): readonly string[] {
  if (heads.length === 1) return ['flange'];
  const plain = heads.map((h, i) => {
    const words = h
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[\u0300-\u036f]/g, '')
      .replace(/[^a-z0-9]+/g, '-');
    return `flange-${words.replace(/^-+|-+$/g, '') || i + 1}`;
  });
  return plain.map((name, i) => {
    const before = plain.slice(0, i).filter((n) => n === name).length;
    return before === 0 ? name : `${name}-${before + 1}`;
  });
}
