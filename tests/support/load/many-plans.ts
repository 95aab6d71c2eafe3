import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse, stringify } from 'yaml';

/** What is expected to become of a plan of the batch. */
export type Meant = 'built' | 'refused' | 'no route';

interface Starter {
  name: string;
  collector: { at: [number, number, number] };
  runners: { length: number };
  jig: Record<string, unknown>;
}

const starter = (name: string): Starter => parse(readFileSync(join('templates', `${name}.yaml`), 'utf8')) as Starter;

/**
 * Writes so many plans into a folder, each different: the single with other lengths and collector places, of every 25 one a vee
 * twin, one that is refused and one that has no route. Run from the root of the project. Gives their file names and what is meant to become of them.
 */
export function writePlans(folder: string, count: number): { readonly file: string; readonly meant: Meant }[] {
  const starters = { single: starter('single'), 'v-twin': starter('v-twin') };
  return Array.from({ length: count }, (_, n) => {
    const meant: Meant = n % 25 === 7 ? 'refused' : n % 25 === 13 ? 'no route' : 'built';
    const kind = n % 25 === 4 ? 'v-twin' : 'single';
    const plan = structuredClone(starters[kind]);
    const [x, y, z] = plan.collector.at;
    plan.name = `${kind} ${n}`;
    plan.collector.at = [x + (n % 7), y - (Math.floor(n / 7) % 9), z];
    plan.runners.length = { refused: -n, 'no route': 200, built: plan.runners.length + (n % 11) }[meant];
    // solids are most of the work of a build and not what is tried here: few of them, and plain
    plan.jig = { bed: [1000, 1000, 1000], scale: false, marks: false, foot: false, strut: 16 };
    const file = `plan-${String(n).padStart(3, '0')}.yaml`;
    writeFileSync(join(folder, file), stringify(plan));
    return { file, meant };
  });
}
