import type { Finding } from '../../checks/finding.js';
import type { Editable } from '../../params/plan-edit/editable.js';
import type { PlanEdit } from '../../params/plan-edit/plan-edit.js';
import type { SceneData, Triple } from './scene-data.js';

export type { Editable, Finding, PlanEdit };

/** What goes between `evenrun watch` and its page, as plain JSON; mm, rad. */

/** How the plan file stands. */
export interface BenchFile {
  readonly name: string;
  /** SHA-256 of its text: changes are made to this text and no other. Empty while there is no file. */
  readonly base: string;
  readonly state: 'routing' | 'routed' | 'no-route' | 'faulty' | 'gone' | 'stopped';
  /** What there is to say of it; as the command line says it. */
  readonly words: string;
  readonly problems: readonly BenchProblem[];
  /** Null where the plan is faulty. */
  readonly editable: Editable | null;
}

/** Something wrong with the plan, with the text of its line. */
export interface BenchProblem {
  readonly line: number;
  readonly column: number;
  readonly path: string;
  readonly message: string;
  readonly text: string;
}

/** A header with its routes. */
export interface BenchHeader {
  /** SHA-256 of the text it was routed from. */
  readonly base: string;
  /** routed: as a build gives it. followed: earlier routes bent to fit. */
  readonly kind: 'routed' | 'followed';
  readonly name: string;
  readonly verdict: string;
  readonly passed: boolean;
  readonly spread: number;
  readonly tolerance: number;
  readonly tubes: readonly BenchTube[];
  readonly findings: readonly Finding[];
  readonly scene: SceneData;
}

/** A row of the equal-length table, with the route as it could be given by hand. */
export interface BenchTube {
  readonly id: string;
  readonly name: string;
  readonly cylinder: number | null;
  readonly collector: string;
  readonly inlet: number;
  readonly length: number;
  readonly target: number;
  readonly bends: number;
  /** Least gap to anything it must keep off; null when there is nothing. */
  readonly gap: number | null;
  readonly byHand: boolean;
  readonly points: readonly Triple[];
  readonly clr: readonly number[];
}

/** The parts and files made from the plan. */
export interface BenchOutputs {
  readonly base: string;
  readonly state: 'none' | 'building' | 'built' | 'stopped' | 'failed';
  readonly words: string;
  /** Offered by number; the bytes stay in memory. */
  readonly files: readonly {
    readonly id: number;
    readonly path: string;
    readonly kind: string;
    readonly bytes: number;
  }[];
  /** Of the built header: those of parts too. */
  readonly findings: readonly Finding[];
  readonly verdict: string;
  /** With jigs; null until built. */
  readonly scene: SceneData | null;
}

/** A page asks how routes would run with changes, nothing written. */
export interface TrialRequest {
  /** Of one open page: its newer requests take the place of its older ones. */
  readonly client: string;
  readonly base: string;
  readonly edits: readonly PlanEdit[];
  /** follow: earlier routes bent to fit, at once. route: what a build would give. */
  readonly how: 'follow' | 'route';
}

export type TrialAnswer =
  | { readonly answer: 'header'; readonly header: BenchHeader; readonly editable: Editable }
  /** Newer changes came meanwhile. */
  | { readonly answer: 'superseded' }
  /** The routes cannot follow: ask for `route`. */
  | { readonly answer: 'cannot-follow' }
  | { readonly answer: 'no-route'; readonly words: string; readonly editable: Editable }
  | { readonly answer: 'faulty'; readonly words: string; readonly problems: readonly BenchProblem[] }
  /** The file is another by now. */
  | { readonly answer: 'conflict'; readonly words: string }
  | { readonly answer: 'failed'; readonly words: string };

/** A page writes changes into the plan file. */
export interface SaveRequest {
  readonly base: string;
  readonly edits: readonly PlanEdit[];
}

export type SaveAnswer =
  | { readonly answer: 'saved'; readonly words: string; readonly base: string }
  | { readonly answer: 'faulty'; readonly words: string; readonly problems: readonly BenchProblem[] }
  | { readonly answer: 'conflict'; readonly words: string }
  | { readonly answer: 'failed'; readonly words: string };
