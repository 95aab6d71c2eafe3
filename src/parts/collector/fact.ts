/** A number with its name and unit, for tables that people read. */
export interface Fact {
  /** 'merge length'. */
  readonly label: string;
  readonly value: number;
  /** 'mm', 'mm2', 'cm3', 'deg', '' for a plain ratio. */
  readonly unit: string;
  /** Digits after the point. */
  readonly digits: number;
}
