import type { BenchHeader, BenchProblem, Editable, TrialAnswer } from '../../export/book/bench-data.js';
import type { Connection } from './connection.js';
import type { EditList } from './edit-list.js';

/** What is known of the changes that are not yet written. */
export interface Trial {
  /** Null until routes with the changes are known. */
  readonly header: BenchHeader | null;
  readonly editable: Editable | null;
  /** What is wrong with them; empty when nothing is. */
  readonly words: string;
  readonly problems: readonly BenchProblem[];
  /** Whether routes as a build gives them are still awaited. */
  readonly waiting: boolean;
}

/** Asks for the routes with changes while they are made: one question at a time, the newest changes next. */
export interface Trials {
  /** New changes to the text of `base`. */
  readonly ask: (base: string, edits: EditList) => void;
  /** No changes any more: answers that are under way count for nothing. */
  readonly forget: () => void;
}

/** Changes to the text of `base`. */
interface Question {
  readonly base: string;
  readonly edits: EditList;
}

/** Changes rest this long before routes are searched for as a build does, ms. */
const REST = 300;

/** Trials over a connection; `told` hears of each step. */
export function trials({ attempt }: Pick<Connection, 'attempt'>, told: (trial: Partial<Trial>) => void): Trials {
  let next: Question | null = null;
  let isAsking = false;
  let newest: Question | null = null;
  let round = 0;
  let timer = 0;

  const hear = (answer: TrialAnswer, waiting: boolean): void => {
    if (answer.answer === 'header') {
      told({ header: answer.header, editable: answer.editable, words: '', problems: [], waiting });
    } else if (answer.answer === 'no-route') {
      told({ editable: answer.editable, words: answer.words, problems: [], waiting });
    } else if (answer.answer === 'faulty') {
      told({ words: answer.words, problems: answer.problems, waiting: false });
    } else if (answer.answer === 'conflict' || answer.answer === 'failed') {
      told({ words: answer.words, problems: [], waiting: false });
    } else told({ waiting });
  };
  const follow = async (): Promise<void> => {
    if (isAsking || !next) return;
    const question = next;
    next = null;
    isAsking = true;
    const own = round;
    const answer = await attempt({ ...question, how: 'follow' });
    isAsking = false;
    // while more changes come, what is known of those before is shown; after `forget` it is not
    if (own === round) hear(answer, true);
    if (newest === question && answer.answer !== 'faulty') rest(question);
    void follow();
  };
  const rest = (question: Question): void => {
    clearTimeout(timer);
    timer = setTimeout(async () => {
      const answer = await attempt({ ...question, how: 'route' });
      // an answer may come after newer changes were asked for, and even after theirs
      if (newest === question) hear(answer, false);
    }, REST) as unknown as number;
  };
  return {
    ask: (base, edits) => {
      clearTimeout(timer);
      newest = { base, edits };
      next = newest;
      told({ waiting: true });
      void follow();
    },
    forget: () => {
      round++;
      newest = null;
      next = null;
      clearTimeout(timer);
    },
  };
}
