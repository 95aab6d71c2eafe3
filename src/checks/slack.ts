/** What an edge may miss its width by and still hold, mm: the rounding of unions, hulls and offsets. */
export const EDGE_SLACK = 1e-4;

/** What a gap may miss its limit by and still hold, mm: the error of the measurement. */
export const GAP_SLACK = 0.01;

/** What follows may be this part smaller in area than what comes before it counts as a contraction. Common practice, no source. */
export const CONTRACTION = 0.98;
