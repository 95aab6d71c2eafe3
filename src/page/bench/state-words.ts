import type { BenchFile, BenchProblem } from '../../export/book/bench-data.js';
import type { BenchState } from './bench-state.js';

const TROUBLE: Readonly<Record<BenchFile['state'], string>> = {
  routing: '',
  routed: '',
  'no-route': 'No set of routes keeps all limits.',
  faulty: 'The plan is not sound.',
  gone: 'The plan file is not there.',
  stopped: 'The routing was stopped.',
};

/** How things stand, in one line. */
export function stateWords({ isReached, edits, trial, file, header }: BenchState): string {
  if (!isReached) return 'The server is not there: start evenrun watch again.';
  if (edits.length > 0) {
    const count = `${edits.length} ${edits.length === 1 ? 'change' : 'changes'} not written`;
    if (trial.words !== '') return `${count}: does not hold`;
    return `${count}: ${trial.waiting ? 'routes follow \u2026' : 'routes as a build gives them'}`;
  }
  if (file.state === 'routing') return header ? `${file.name}: routing \u2026` : `${file.name} ${file.words} \u2026`;
  return file.state === 'routed'
    ? `${file.name}: routes as a build gives them`
    : `${file.name}: ${TROUBLE[file.state]}`;
}

/** Something that is wrong. */
export interface Trouble {
  readonly title: string;
  readonly words: string;
  readonly problems: readonly BenchProblem[];
}

/** What is wrong with the file, and with the changes. */
export function troublesOf({ file, header, edits, trial }: BenchState): Trouble[] {
  const last = header ? ' The last good result stays.' : '';
  return [
    ...(TROUBLE[file.state] === ''
      ? []
      : [{ title: `${TROUBLE[file.state]}${last}`, words: file.words, problems: file.problems }]),
    ...(edits.length > 0 && trial.words !== ''
      ? [{ title: 'Your change does not hold', words: trial.words, problems: trial.problems }]
      : []),
  ];
}
