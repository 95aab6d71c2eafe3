import type { SaveAnswer, SaveRequest, TrialAnswer, TrialRequest } from '../../export/book/bench-data.js';
import { applyEdits } from '../../params/plan-edit/apply-edits.js';
import type { Editable } from '../../params/plan-edit/editable.js';
import type { PlanEdit } from '../../params/plan-edit/plan-edit.js';
import type { DeskNews, RoutingDesk } from './routing-desk.js';
import { savePlan, textHash } from './save-plan.js';

/** The plan file as it was last read. `base` is the SHA-256 of its text, empty while there is no file. */
export interface PlanOnFile {
  readonly path: string;
  readonly text: string;
  readonly base: string;
}

interface Refused {
  readonly answer: 'conflict' | 'faulty';
  readonly words: string;
  readonly problems: readonly [];
}

/** The text with changes; refused where they were made to another text or cannot be made. */
function changedText(plan: PlanOnFile, base: string, edits: readonly PlanEdit[]): string | Refused {
  if (plan.base === '' || base !== plan.base) {
    return { answer: 'conflict', words: 'the plan file is another by now: make the changes again', problems: [] };
  }
  const edited = applyEdits(plan.text, edits);
  return edited.ok ? edited.text : { answer: 'faulty', words: edited.message, problems: [] };
}

/** The routes with changes; nothing is written. */
export async function attemptChanges(plan: PlanOnFile, desk: RoutingDesk, request: TrialRequest): Promise<TrialAnswer> {
  const text = changedText(plan, request.base, request.edits);
  if (typeof text !== 'string') return text;
  let answer: TrialAnswer = { answer: 'superseded' };
  let editable: Editable | null = null;
  const hear = (news: DeskNews): void => {
    if (news.news === 'read') {
      editable = news.editable;
      if (!editable) answer = { answer: 'faulty', words: news.words, problems: news.problems };
    } else if (news.news === 'header') answer = { answer: 'header', header: news.header, editable: editable! };
    else if (news.news === 'no-route') answer = { answer: 'no-route', words: news.words, editable: editable! };
    else if (news.news === 'died') answer = { answer: 'failed', words: `the routing was stopped: ${news.words}` };
    else answer = { answer: news.news };
  };
  await desk.ask({ path: plan.path, text, how: request.how, lane: `page ${request.client}` }, hear);
  return answer;
}

/** Writes changes into the plan file, once the plan with them is found sound. */
export async function saveChanges(plan: PlanOnFile, desk: RoutingDesk, request: SaveRequest): Promise<SaveAnswer> {
  const { path, base } = plan;
  const text = changedText(plan, request.base, request.edits);
  if (typeof text !== 'string') return text;
  if (text === plan.text) return { answer: 'saved', words: 'the plan says so already: nothing was written', base };
  const hash = textHash(text);
  let fault: SaveAnswer | null = { answer: 'failed', words: 'the plan could not be read; nothing was written' };
  await desk.ask({ path, text, how: 'read', lane: `save ${hash}` }, (news) => {
    if (news.news !== 'read') return;
    fault = news.editable ? null : { answer: 'faulty', words: news.words, problems: news.problems };
  });
  if (fault !== null) return fault;
  const saved = await savePlan(path, base, text);
  if (!saved.ok) return { answer: saved.conflict ? 'conflict' : 'failed', words: saved.words };
  return { answer: 'saved', words: `written; the earlier version is kept as ${saved.backup}`, base: hash };
}
