import type { PlanEdit } from '../../export/book/bench-data.js';

/** Changes that are not yet written, in order; each place of the plan once. */
export type EditList = readonly PlanEdit[];

/** What of the plan a change is about: a later one of the same place takes an earlier one's place. */
export function placeOf(edit: PlanEdit): string {
  const { edit: kind } = edit;
  if ('keepOut' in edit) return `${kind} ${edit.keepOut}`;
  if ('bend' in edit) return `${kind} ${edit.bend}`;
  if ('cylinder' in edit) return `${kind} ${edit.cylinder} ${'point' in edit ? edit.point : ''}`;
  const field = 'field' in edit ? edit.field : '';
  return 'collector' in edit ? `${kind} ${edit.collector} ${field}` : `${kind} ${field}`;
}

/** The list with a change in it. */
export function withEdit(list: EditList, edit: PlanEdit): EditList {
  const place = placeOf(edit);
  const at = list.findIndex((e) => placeOf(e) === place);
  return at < 0 ? [...list, edit] : list.map((e, i) => (i === at ? edit : e));
}
