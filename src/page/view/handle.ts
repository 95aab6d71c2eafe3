import type { Triple } from '../../export/book/scene-data.js';

/** A place that can be dragged in the picture. */
export interface Handle {
  readonly id: string;
  /** Few words that stand beside it. */
  readonly title: string;
  readonly at: Triple;
  /** It moves along this unit direction alone; left out: in the plane square to the way one looks. */
  readonly along?: Triple;
}

/** Where a handle is dragged to; `done` when it is let go. */
export interface HandleMove {
  readonly id: string;
  readonly at: Triple;
  readonly done: boolean;
}
