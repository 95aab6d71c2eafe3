import type { AsBuilt } from '../../params/as-built/as-built.js';
import { type AsBuiltRefused, readAsBuilt } from '../../params/as-built/read-as-built.js';
import type { Plan } from '../../params/plan.js';
import type { TubeToMeasure } from '../../parts/as-built/built-tube.js';
import { asBuiltFaults } from '../../parts/as-built/faults.js';
import { CommandError, EXIT } from '../exit-code.js';

/** What an as-built file holds, checked against the tubes of its plan. Throws CommandError naming line and field of all that is wrong. */
export function checkedAsBuilt(text: string, path: string, plan: Plan, tubes: readonly TubeToMeasure[]): AsBuilt {
  const read = readAsBuilt(text, path);
  if (!read.ok) throw refused(read);
  const faults = asBuiltFaults(plan, tubes, read.asBuilt);
  if (faults.length > 0) throw refused(read.refuse(faults));
  return read.asBuilt;
}

/** The file read alone, before a route is searched for. Throws CommandError like `checkedAsBuilt`. */
export function soundAsBuilt(text: string, path: string): void {
  const read = readAsBuilt(text, path);
  if (!read.ok) throw refused(read);
}

function refused({ problems, text }: AsBuiltRefused): CommandError {
  const count = problems.length;
  const message = `the as-built file has ${count} ${count === 1 ? 'fault' : 'faults'}\n${text}`;
  return new CommandError(EXIT.wrongInput, message, { problems });
}
