/** Paths, and the control polygons that give them. */

export * from './control-polygon.js';
export * from './path-segments.js';
