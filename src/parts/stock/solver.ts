import type { LegacyHighs } from 'highs';

/** A linear model: columns from 0 up, numbered; least cost. */
export interface LinearModel {
  readonly costs: readonly number[];
  readonly rows: readonly Row[];
  /** True when every column is a whole number. */
  readonly whole: boolean;
}

export interface Row {
  readonly terms: readonly (readonly [column: number, factor: number])[];
  readonly sense: '>=' | '<=' | '=';
  readonly limit: number;
}

export interface LinearSolution {
  /** False when the counted limit of nodes ended the search. */
  readonly proven: boolean;
  readonly values: readonly number[];
  /** What one more unit of each row's limit costs; zeros in a model of whole numbers. */
  readonly duals: readonly number[];
}

/** Solves a model; null when it has no solution or none was found. */
export type Solver = (model: LinearModel) => LinearSolution | null;

/** Most nodes of one search for whole numbers: counted, so that the same model gives the same answer on any machine. */
const MOST_NODES = 2000;

/** No clock and one thread: the same model gives the same answer. */
const OPTIONS = {
  random_seed: 0,
  threads: 1,
  parallel: 'off',
  output_flag: false,
  mip_rel_gap: 0,
  mip_abs_gap: 1e-6,
  mip_max_nodes: MOST_NODES,
} as const;

interface Answer {
  readonly Status: string;
  readonly Columns: Readonly<Record<string, { readonly Primal?: number }>>;
  readonly Rows: readonly { readonly Name?: string; readonly Dual?: number }[];
}

/** The solver of linear and whole-number models: HiGHS. Loaded when first asked for, so that what cuts no stock does not wait for it. */
export async function loadSolver(): Promise<Solver> {
  // the package's types describe its CommonJS form; imported as a module its default export is the loader itself
  const { default: load } = (await import('highs')) as unknown as { default: () => Promise<LegacyHighs> };
  const highs = await load();
  return (model) => {
    const answer = highs.solve(modelText(model), OPTIONS) as unknown as Answer;
    const values = model.costs.map((_, i) => answer.Columns[`x${i}`]?.Primal);
    if (!KNOWN.has(answer.Status) || values.some((v) => v === undefined || !Number.isFinite(v))) return null;
    const duals = new Map(answer.Rows.map((r) => [r.Name, r.Dual ?? 0]));
    return {
      proven: answer.Status === 'Optimal',
      values: values as number[],
      duals: model.rows.map((_, i) => duals.get(`r${i}`) ?? 0),
    };
  };
}

/** Outcomes that may come with a solution. */
const KNOWN = new Set(['Optimal', 'Solution limit reached', 'Node limit reached', 'Iteration limit reached']);

/** The model in the CPLEX LP format. */
function modelText({ costs, rows, whole }: LinearModel): string {
  const names = costs.map((_, i) => `x${i}`);
  const lines = [
    'Minimize',
    ` obj: ${sum(costs.map((c, i) => [i, c] as const))}`,
    'Subject To',
    ...rows.map(({ terms, sense, limit }, i) => ` r${i}: ${sum(terms)} ${sense} ${plain(limit)}`),
    ...(whole ? ['General', ` ${names.join('\n ')}`] : []),
    'End',
  ];
  return `${lines.join('\n')}\n`;
}

/** One term a line: readers of the format limit the length of a line. */
const sum = (terms: Row['terms']): string =>
  terms.map(([column, factor]) => `${factor < 0 ? '-' : '+'} ${plain(Math.abs(factor))} x${column}`).join('\n  ');

const plain = (value: number): string => String(Number(value.toFixed(10)));
