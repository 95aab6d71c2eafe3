/**
 * Lengths recomputed from the text of a bend table alone, with none of the program's own geometry: for every cylinder the
 * distances between points, less twice the tangent R tan(a / 2) and plus the arc R a at every inner point.
 */
export function lengthsFromBendTable(csv: string): Map<number, number> {
  const [header, ...lines] = csv.trim().split('\r\n');
  const column = new Map(header!.split(',').map((name, i) => [name, i]));
  const cell = (row: string[], name: string): number => Number(row[column.get(name)!]);
  const tubes = new Map<number, { p: number[]; clr: number }[]>();
  for (const line of lines) {
    const row = line.split(',');
    const tube = tubes.get(cell(row, 'cylinder')) ?? [];
    tube.push({ p: ['x_mm', 'y_mm', 'z_mm'].map((n) => cell(row, n)), clr: cell(row, 'clr_mm') });
    tubes.set(cell(row, 'cylinder'), tube);
  }
  return new Map([...tubes].map(([cylinder, tube]) => [cylinder, lengthOf(tube)]));
}

function lengthOf(tube: readonly { p: number[]; clr: number }[]): number {
  let total = 0;
  for (let i = 1; i < tube.length; i++) {
    const u = minus(tube[i]!.p, tube[i - 1]!.p);
    total += Math.hypot(...u);
    if (i + 1 === tube.length) break;
    const v = minus(tube[i + 1]!.p, tube[i]!.p);
    const cosine = (u[0]! * v[0]! + u[1]! * v[1]! + u[2]! * v[2]!) / (Math.hypot(...u) * Math.hypot(...v));
    const angle = Math.acos(Math.min(1, Math.max(-1, cosine)));
    total += tube[i]!.clr * (angle - 2 * Math.tan(angle / 2));
  }
  return total;
}

const minus = (a: readonly number[], b: readonly number[]): number[] => a.map((x, i) => x - b[i]!);
