import { isDeepStrictEqual } from 'node:util';
import { isScalar } from 'yaml';
import type { PlanPath } from '../faults/plan-problem.js';
import type { PlanEdit } from './plan-edit.js';
import { nodeAt, over, type PlanSource, planSource, sourceOf, withEntry, withField, yamlValue } from './plan-source.js';
import { type Write, writesOf } from './plan-writes.js';

/** The text with the changes in it, or why they cannot be written, in words. */
export type EditedPlan =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly message: string };

/**
 * The text of a plan with changes written into it, mm and rad. Nothing but the numbers concerned changes: comments, anchors, layout and
 * units stay, fields that are missing are added at the end of their section. Whether the plan is still sound is for `readPlan` to say.
 * A change that would reach further than it should, through an anchor, is refused in words.
 */
export function applyEdits(text: string, edits: readonly PlanEdit[]): EditedPlan {
  try {
    return { ok: true, text: edits.reduce((now, edit) => writesOf(now, edit).reduce(written, now), text) };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { ok: false, message: error.message };
  }
}

/** The text with one value written, checked: read again, it must hold that value and be the same everywhere else. */
function written(text: string, write: Write): string {
  const source = planSource(text);
  const [next, path, snippet] = write.entry ? entered(source, write, write.entry) : set(source, write);
  if (next === text) return text;
  const expected = withValue(source.value, path, yamlValue(snippet));
  if (!isDeepStrictEqual(planSource(next).value, expected)) {
    throw new RangeError(
      `${path.join('.')} cannot be changed here without changing more of the plan: other places repeat it by an anchor (&name); change it in the file`,
    );
  }
  return next;
}

type Done = readonly [text: string, path: PlanPath, snippet: string];

function set(source: PlanSource, { path, over: rewritten, fresh }: Write): Done {
  const node = nodeAt(source, path);
  if (node === null) return [withField(source, path.slice(0, -1), String(path.at(-1)), fresh), path, fresh];
  const old = isScalar(node) ? { value: node.value, source: sourceOf(source, node) } : null;
  const snippet = old === null ? fresh : rewritten(old);
  return [over(source, node, snippet), path, snippet];
}

function entered(source: PlanSource, { path, fresh }: Write, lines: readonly string[]): Done {
  const into = withEntry(source, path, fresh, lines);
  const had = into === null ? 0 : (nodeAt(source, path) as { items: unknown[] }).items.length;
  const indented = lines.map((line) => `  ${line}`);
  const next = into ?? withField(source, path.slice(0, -1), String(path.at(-1)), `[${fresh}]`, indented);
  return [next, [...path, had], fresh];
}

/** A deep copy of plain data with a value set at a path. */
function withValue(data: unknown, [step, ...rest]: PlanPath, value: unknown): unknown {
  if (step === undefined) return value;
  if (Array.isArray(data) || (data === undefined && typeof step === 'number')) {
    const list = [...((data as unknown[] | undefined) ?? [])];
    list[Number(step)] = withValue(list[Number(step)], rest, value);
    return list;
  }
  const map = (data ?? {}) as Record<string, unknown>;
  return { ...map, [step]: withValue(map[step], rest, value) };
}
