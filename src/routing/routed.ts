import type { ControlPolygon, Path } from '../geometry/path.js';

/** A primary with its route, from the head face to the collector inlet plane. */
export interface RoutedPrimary {
  readonly cylinder: number;
  /** Index into `Plan.collectors`. */
  readonly collector: number;
  /** Inlet number of that collector, from 1. */
  readonly inlet: number;
  readonly polygon: ControlPolygon;
  readonly path: Path;
  /** Centreline length, mm. */
  readonly length: number;
  readonly givenByHand: boolean;
}
