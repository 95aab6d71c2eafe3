/** Rows of a CSV file by the names of its columns; for tables without quoted cells. */
export function csvRows(bytes: Uint8Array): Readonly<Record<string, string>>[] {
  const [header, ...lines] = new TextDecoder().decode(bytes).trimEnd().split('\r\n');
  const names = header!.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(names.map((name, i) => [name, cells[i]!]));
  });
}
