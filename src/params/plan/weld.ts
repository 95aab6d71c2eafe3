/** What the butt welds of the tubes add and take, mm: shop values, measured on the shop's own welds. */
export interface WeldPlan {
  /** Root gap left between two pieces. */
  readonly gap: number;
  /** How much one weld draws its pieces together. */
  readonly shrinkage: number;
}
