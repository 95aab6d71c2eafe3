import type { LinePlot } from './line-plot.js';

/** A page of words, tables and pictures, whatever it is printed as: text, HTML or PDF. */
export interface Page {
  /** Safe as an HTML id and as the name of a file. */
  readonly id: string;
  readonly title: string;
  readonly blocks: readonly PageBlock[];
}

export type PageBlock =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | PageTable
  /** Text names the file it is also written to. */
  | { readonly kind: 'plot'; readonly file: string; readonly plot: LinePlot };

export interface PageTable {
  readonly kind: 'table';
  readonly columns: readonly PageColumn[];
  readonly rows: readonly (readonly string[])[];
}

export interface PageColumn {
  readonly head: string;
  /** Numbers stand to the right. */
  readonly align: 'left' | 'right';
}

/** A heading with what stands below it. */
export const section = (title: string, ...blocks: readonly PageBlock[]): PageBlock[] => [heading(title), ...blocks];

const heading = (text: string): PageBlock => ({ kind: 'heading', text });

export const paragraph = (text: string): PageBlock => ({ kind: 'paragraph', text });

export const list = (items: readonly string[]): PageBlock => ({ kind: 'list', items });

/** Columns by their heads; those that begin with `<` stand to the left. */
export const pageTable = (heads: readonly string[], rows: readonly (readonly string[])[]): PageTable => ({
  kind: 'table',
  columns: heads.map((h) => (h.startsWith('<') ? { head: h.slice(1), align: 'left' } : { head: h, align: 'right' })),
  rows,
});
