import type { BenchFile, BenchHeader, BenchOutputs, Editable, PlanEdit } from '../../export/book/bench-data.js';
import { type EditList, withEdit } from './edit-list.js';
import type { Trial } from './trial.js';

/** What the page knows at a moment. */
export interface BenchState {
  readonly file: BenchFile;
  /** Of the plan as it is written; null until it was routed. */
  readonly header: BenchHeader | null;
  readonly outputs: BenchOutputs | null;
  /** Changes that are not written, and the lists before each of them, the oldest first. */
  readonly edits: EditList;
  readonly earlier: readonly EditList[];
  readonly trial: Trial;
  readonly isReached: boolean;
  readonly isSaving: boolean;
}

const NO_TRIAL: Trial = { header: null, editable: null, words: '', problems: [], waiting: false };
const NO_FILE: BenchFile = { name: '', base: '', state: 'routing', words: 'connecting', problems: [], editable: null };

/** Before the server has told anything. */
export const AT_FIRST: BenchState = {
  file: NO_FILE,
  header: null,
  outputs: null,
  edits: [],
  earlier: [],
  trial: NO_TRIAL,
  isReached: true,
  isSaving: false,
};

/** Most changes that can be undone. */
const MOST_UNDONE = 100;

/** With a further change; one that goes on from the last, as a drag does, is undone together with it. */
export const changed = (s: BenchState, edit: PlanEdit, isGoingOn: boolean): BenchState => ({
  ...s,
  earlier: isGoingOn ? s.earlier : [...s.earlier, s.edits].slice(-MOST_UNDONE),
  edits: withEdit(s.edits, edit),
});

/** With another list of changes; without any there is nothing to be tried. */
export const withEdits = (s: BenchState, edits: EditList): BenchState => ({
  ...s,
  edits,
  trial: edits.length === 0 ? NO_TRIAL : s.trial,
});

/** The header as it would be with the changes, as far as that is known. */
export const headerNow = ({ edits, trial, header }: BenchState): BenchHeader | null =>
  edits.length > 0 ? (trial.header ?? header) : header;

/** What can be changed, with the changes. */
export const editableNow = ({ edits, trial, file }: BenchState): Editable | null =>
  (edits.length > 0 ? trial.editable : null) ?? file.editable;

/** The parts, where they are those of the header that is shown; else null. */
export const partsNow = ({ edits, outputs, header }: BenchState): BenchOutputs | null =>
  edits.length === 0 && outputs?.state === 'built' && outputs.base === header?.base ? outputs : null;
