/** What became of the relief between two neighbouring ports. */
export interface Relief {
  /** What was cut. */
  readonly kind: 'neck' | 'slot';
  /** Places in the list of openings. */
  readonly between: readonly [number, number];
  /** Length of the neck along the line of ports, or of the slot across it, mm; 0 where there is no room. */
  readonly length: number;
}
