import type { ControlPolygon } from '../geometry/path/control-polygon.js';
import type { Path } from '../geometry/path/path.js';

/** A stretch of one size of a routed tube, mm. */
export interface RoutedSection {
  /** Running length at which it begins. */
  readonly from: number;
  /** Outside diameter, mm. */
  readonly od: number;
  /** Wall, mm. */
  readonly wall: number;
}

/** A tube with its route. */
export interface RoutedTube {
  /** Cylinder number, or the name of the collector a secondary comes from: short, and its own among all tubes of a header. */
  readonly id: string;
  /** 'cylinder 2' or 'secondary from front'. */
  readonly name: string;
  /** Index into `Plan.collectors` of the collector it ends at. */
  readonly collector: number;
  /** Inlet number of that collector, from 1. */
  readonly inlet: number;
  /** Intersection points of its straights and the CLR of its bends. */
  readonly polygon: ControlPolygon;
  /** The centreline: straights and arcs. */
  readonly path: Path;
  /** Centreline length, mm. */
  readonly length: number;
  /** Target length, mm. */
  readonly target: number;
  /** From the start on; one where the tube does not grow. */
  readonly sections: readonly RoutedSection[];
  /** True when the plan gives its route. */
  readonly givenByHand: boolean;
}

/** A primary with its route, from the head face to the collector inlet plane. */
export interface RoutedPrimary extends RoutedTube {
  /** Cylinder number, from 1. */
  readonly cylinder: number;
}

/** A secondary with its route, from a collector's outlet to the next collector's inlet plane. */
export interface RoutedSecondary extends RoutedTube {
  /** Index into `Plan.collectors` of the collector it comes from. */
  readonly from: number;
}

/** Number of bends to be cut: the halves of a U-bend are one. */
export const bendsOf = (tube: RoutedTube): number => tube.path.segments.filter((s) => s.kind === 'bend').length;
