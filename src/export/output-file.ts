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
  readonly path: string;
  readonly kind: OutputKind;
  readonly bytes: Uint8Array;
}
