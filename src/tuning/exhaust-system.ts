/**
 * An exhaust as the gas sees it, from the valves to the open air: pipes and the joints where they meet. SI units (m, m2, m3, K).
 * A header's routes, the equal-length ideal and the manifold the builder has are all described so, and calculated alike.
 */
export interface ExhaustSystem {
  /** 'as routed', 'equal lengths', 'existing manifold'. */
  readonly name: string;
  readonly pipes: readonly ExhaustPipe[];
  readonly joints: readonly ExhaustJoint[];
  /** What the last pipes open to. */
  readonly end: ExhaustEnd;
}

/** Where pipes meet: a small volume. */
export interface ExhaustJoint {
  readonly name: string;
  readonly volume: number;
}

export interface ExhaustPipe {
  /** 'cylinder 2', 'secondary from front', 'tailpipe'. */
  readonly name: string;
  /** What it begins at: a cylinder's exhaust valves, or a joint by index. */
  readonly from: { readonly cylinder: number } | { readonly joint: number };
  /** What it ends at: a joint by index, or the end of the system. */
  readonly to: { readonly joint: number } | 'end';
  readonly length: number;
  /** Area at distances from its start, rising from 0 to `length`; straight lines of diameter between; two at one distance are a step. */
  readonly stations: readonly { readonly at: number; readonly area: number }[];
  /** Stretches that turn the gas: K is the loss coefficient of the whole bend, on the mean dynamic pressure there. */
  readonly bends: readonly { readonly from: number; readonly to: number; readonly loss: number }[];
  /** Height of the wall's roughness. */
  readonly roughness: number;
  /** A double wall keeps the heat in: part of the heat loss of a bare wall, 0 to 1. */
  readonly heatShare: number;
}

export type ExhaustEnd =
  | { readonly kind: 'open'; readonly flanged: boolean }
  /** A turbine as a nozzle: effective area of each inlet; a divided housing has one for each pipe that ends there. */
  | { readonly kind: 'turbine'; readonly areas: readonly number[]; readonly backPressure: number };
