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
  | 'bend-table'
  | 'alternatives'
  | 'jig'
  | 'collector'
  | 'pattern'
  | 'picture';

/** A file to be written: plain bytes under a path relative to the output folder, with forward slashes. */
export interface OutputFile {
  readonly path: string;
  readonly kind: OutputKind;
  readonly bytes: Uint8Array;
}
