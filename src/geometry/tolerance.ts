/** Two lengths this close, in mm, are the same length: far below any shop tool, far above rounding of metre-size numbers. */
export const LENGTH_TOLERANCE = 1e-9;

/** Points of one outline this close, in mm, are the same point: what a chain of unions and offsets may lose. */
export const JOIN_TOLERANCE = 1e-6;

/** Largest distance, in mm, between a true curved surface and the facets that stand for it in any mesh we write. */
export const CHORD_ERROR = 0.05;

/** A reported smallest distance, in mm, is this close to the true one. */
export const DISTANCE_ERROR = 0.005;
