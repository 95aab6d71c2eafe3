/** What a file is for, as summary.json names it. */
export type OutputKind =
  | 'summary'
  | 'flange-drawing'
  | 'plate-drawing'
  | 'gasket-drawing'
  | 'sheet-drawing'
  | 'plates'
  | 'print'
  | 'lengths'
  | 'ledges'
  | 'cut-list'
  | 'joints'
  | 'tube-totals'
  | 'stock'
  | 'shopping-list'
  | 'bend-table'
  | 'alternatives'
  | 'jig'
  | 'print-plate'
  | 'print-plates'
  | 'collector'
  | 'merge-gauge'
  | 'header-model'
  | 'saw-block'
  | 'pattern'
  | 'picture'
  | 'sheets'
  | 'book'
  | 'tuning';

/** A file to be written: plain bytes under a path relative to the output folder, with forward slashes. */
export interface OutputFile {
  /** Relative to the output folder, with forward slashes. */
  readonly path: string;
  /** What it is for. */
  readonly kind: OutputKind;
  /** All of its content. */
  readonly bytes: Uint8Array;
}

/** A file of text, UTF-8. */
export const textFile = (path: string, kind: OutputKind, text: string): OutputFile => ({
  path,
  kind,
  bytes: new TextEncoder().encode(text),
});
