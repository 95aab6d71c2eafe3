import type { PlanEdit } from '../../export/book/bench-data.js';
import { type BenchState, changed, withEdits } from './bench-state.js';
import type { Connection } from './connection.js';
import type { EditList } from './edit-list.js';
import { trials } from './trial.js';

/** The page as its editing sees it. */
export interface Edited {
  readonly state: () => BenchState;
  readonly set: (part: Partial<BenchState>) => void;
  /** Words that are read out. */
  readonly say: (words: string) => void;
}

/** What is done with changes. */
export interface Editing {
  /** `isGoingOn`: the same drag as the change before. */
  readonly change: (edit: PlanEdit, isGoingOn?: boolean) => void;
  readonly undo: () => void;
  readonly discard: () => void;
  readonly save: () => Promise<void>;
  /** Tries the changes again: the file is another. */
  readonly again: () => void;
}

/** Makes changes, tries each at once, and has them written. */
export function editing(server: Connection, { state, set, say }: Edited): Editing {
  const asking = trials(server, (part) => {
    const trial = { ...state().trial, ...part };
    set({ trial });
    if (part.waiting === false && part.words === '' && trial.header) say(`With your changes: ${trial.header.verdict}`);
  });
  const setEdits = (next: EditList): void => {
    const { file } = state();
    if (next.length === 0) asking.forget();
    set(withEdits(state(), next));
    if (next.length > 0 && file.base !== '') asking.ask(file.base, next);
  };
  const save = async (): Promise<void> => {
    const { edits: written, isSaving, file } = state();
    if (written.length === 0 || isSaving) return;
    set({ isSaving: true });
    const answer = await server.save({ base: file.base, edits: written });
    const now = state();
    if (answer.answer === 'saved') {
      say(`Saved: ${answer.words}.`);
      set({ isSaving: false, earlier: [], file: { ...now.file, base: answer.base } });
      setEdits(now.edits === written ? [] : now.edits);
      return;
    }
    const problems = answer.answer === 'faulty' ? answer.problems : [];
    set({ isSaving: false, trial: { ...now.trial, words: answer.words, problems } });
    say(`Not saved: ${answer.words}`);
  };
  return {
    change: (edit, isGoingOn = false) => {
      const next = changed(state(), edit, isGoingOn);
      set({ earlier: next.earlier });
      setEdits(next.edits);
    },
    undo: () => {
      const { earlier } = state();
      const last = earlier.at(-1);
      if (!last) return;
      set({ earlier: earlier.slice(0, -1) });
      setEdits(last);
      say(last.length === 0 ? 'All changes are undone.' : 'The last change is undone.');
    },
    discard: () => {
      set({ earlier: [] });
      setEdits([]);
      say('The changes are discarded: this is the plan as it is written.');
    },
    save,
    again: () => asking.ask(state().file.base, state().edits),
  };
}
