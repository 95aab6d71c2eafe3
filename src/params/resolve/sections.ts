import type { PortShape } from '../port-shape/port-shape.js';
import type { PlanFile } from '../schema/plan-file.js';

type HeadFile = NonNullable<PlanFile['head']>;
type PortFile = NonNullable<HeadFile['ports']>[number];
type BoltFile = NonNullable<HeadFile['bolts']>[number];

/** A port whose shape is known, from the plan or from a file it names. */
export type PortSection = Omit<PortFile, 'shape'> & { readonly shape: PortShape };

/** A head with its ports and bolts, from the plan or from the drawing it names. */
export type HeadSection = Omit<HeadFile, 'ports' | 'bolts' | 'trace'> & {
  readonly ports: readonly PortSection[];
  readonly bolts: readonly BoltFile[];
};

type Placed = Omit<NonNullable<PlanFile['heads']>[number], keyof HeadFile>;

/** A plan file after the drawings and point lists it names have been read. */
export type PlanSections = Omit<PlanFile, 'head' | 'heads'> & {
  readonly head?: HeadSection | undefined;
  readonly heads?: readonly (HeadSection & Placed)[] | undefined;
};
