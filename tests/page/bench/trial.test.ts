import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { PlanEdit, TrialAnswer, TrialRequest } from '../../../src/export/book/bench-data.js';
import { type Trial, trials } from '../../../src/page/bench/trial.js';

type Asked = Omit<TrialRequest, 'client'> & { readonly answer: (answer: TrialAnswer) => Promise<void> };

const edits = (value: number): PlanEdit[] => [{ edit: 'runners', field: 'length', value }];
const noRoute = (words: string): TrialAnswer =>
  ({ answer: 'no-route', words, editable: { name: words } }) as unknown as TrialAnswer;

let asked: Asked[] = [];
let trial: Partial<Trial> = {};
const server = {
  attempt: (request: Omit<TrialRequest, 'client'>): Promise<TrialAnswer> =>
    new Promise((done) => {
      const answer = async (given: TrialAnswer): Promise<void> => {
        done(given);
        await vi.advanceTimersByTimeAsync(0);
      };
      asked.push({ ...request, answer });
    }),
};
const start = () => {
  const told = (part: Partial<Trial>): void => {
    trial = { ...trial, ...part };
  };
  return trials(server, told);
};
const hows = (): string[] => asked.map((a) => `${a.how} ${(a.edits[0] as { value: number }).value}`);

beforeEach(() => {
  vi.useFakeTimers();
  asked = [];
  trial = {};
});
afterEach(() => {
  vi.useRealTimers();
});

it('asks for routes that follow at once, the newest changes next, and for those of a build when changes rest', async () => {
  const asking = start();
  for (const value of [1, 2, 3]) asking.ask('a', edits(value));
  expect(hows()).toEqual(['follow 1']);
  await asked[0]!.answer(noRoute('one'));
  expect(hows()).toEqual(['follow 1', 'follow 3']);
  expect(trial).toMatchObject({ words: 'one', waiting: true });
  await asked[1]!.answer(noRoute('three'));
  await vi.advanceTimersByTimeAsync(1000);
  expect(hows()).toEqual(['follow 1', 'follow 3', 'route 3']);
  await asked[2]!.answer(noRoute('three as built'));
  expect(trial).toMatchObject({ words: 'three as built', waiting: false });
});

it('does not take the late answer to older changes for one to the newest', async () => {
  const asking = start();
  asking.ask('a', edits(1));
  await asked[0]!.answer(noRoute('one'));
  await vi.advanceTimersByTimeAsync(1000);
  asking.ask('a', edits(2));
  await asked[2]!.answer(noRoute('two'));
  expect(hows()).toEqual(['follow 1', 'route 1', 'follow 2']);
  await asked[1]!.answer(noRoute('one as built'));
  expect(trial).toMatchObject({ words: 'two', waiting: true });
});

it('hears nothing of changes that were given up, even when others came since', async () => {
  const asking = start();
  asking.ask('a', edits(1));
  asking.forget();
  asking.ask('a', edits(2));
  await asked[0]!.answer(noRoute('one'));
  expect(trial.words).toBeUndefined();
  expect(hows()).toEqual(['follow 1', 'follow 2']);
});

it('does not search for routes of a plan that is not sound', async () => {
  const asking = start();
  asking.ask('a', edits(-1));
  await asked[0]!.answer({ answer: 'faulty', words: 'too short', problems: [] });
  await vi.advanceTimersByTimeAsync(1000);
  expect(hows()).toEqual(['follow -1']);
  expect(trial).toMatchObject({ words: 'too short', waiting: false });
});
