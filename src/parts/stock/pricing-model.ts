import type { OpenProblem } from './nesting-problem.js';
import { FIT, type Load, type Pattern } from './pattern.js';
import type { LinearModel, Row, Solver } from './solver.js';

/** The pattern of an item worth most, as a model of whole numbers, and whether that is proven; null when none was found. */
export function bestByModel(
  problem: OpenProblem,
  item: number,
  worths: readonly number[],
  solver: Solver,
): { readonly pattern: Pattern; readonly worth: number; readonly proven: boolean } | null {
  const options = problem.options[item]!.filter((o) => worths[o.piece]! > 0);
  if (options.length === 0) return { pattern: { item, cuts: [] }, worth: 0, proven: true };
  const room = problem.rooms[item]!;
  const resource = (of: (load: Load) => number, limit: number): Row => ({
    terms: options.flatMap(({ load }, k) => (of(load) > 0 ? [[k, of(load)] as const] : [])),
    sense: '<=',
    limit,
  });
  const rows = [
    resource((l) => l.stick, room.stick + FIT.length),
    resource((l) => l.leg1, room.leg1 + FIT.length),
    resource((l) => l.leg2, room.leg2 + FIT.length),
    resource((l) => l.arc, room.arc + FIT.angle),
    resource((l) => l.ends[0], room.ends[0]),
    resource((l) => l.ends[1], room.ends[1]),
    ...problem.classes.map(
      ({ demand }, piece): Row => ({
        terms: options.flatMap((o, k) => (o.piece === piece ? [[k, 1] as const] : [])),
        sense: '<=',
        limit: demand,
      }),
    ),
  ].filter((row) => row.terms.length > 0);
  const model: LinearModel = { costs: options.map((o) => -worths[o.piece]!), rows, whole: true };
  const solution = solver(model);
  if (solution === null) return null;
  const cuts = options.flatMap((o, k) => Array.from({ length: Math.round(solution.values[k]!) }, () => o));
  const worth = cuts.reduce((total, o) => total + worths[o.piece]!, 0);
  return { pattern: { item, cuts }, worth, proven: solution.proven };
}
