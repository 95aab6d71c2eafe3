import { radians } from '../../geometry/angle.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { KeepOut, Plan } from '../plan.js';
import { type LengthUnit, parseLength } from '../units.js';
import { planSource } from './plan-source.js';

/** What of a plan can be changed from a page, as it stands: mm, rad, in the order of the file. */
export interface Editable {
  readonly units: 'mm' | 'in';
  /** Null where the plan has a band. */
  readonly length: number | null;
  readonly spread: number;
  readonly clearance: number;
  readonly secondaries: { readonly length: number; readonly spread: number } | null;
  /** Bent stock of the primaries; null where a table gives its radius. */
  readonly clr: readonly (number | null)[];
  readonly collectors: readonly {
    readonly name: string;
    readonly at: Vec3;
    /** As the file has it: of any length. */
    readonly direction: Vec3;
    readonly clocking: number;
    readonly gap: number;
    readonly mergeHalfAngle: number;
  }[];
  readonly keepOuts: readonly { readonly name: string; readonly kind: KeepOut['kind']; readonly at: Vec3 }[];
  /** Routes given by hand by their points. */
  readonly routes: readonly { readonly cylinder: number; readonly points: readonly Vec3[] }[];
}

/** Fields of the file that a sound plan no longer has as they were written. */
interface FileShape {
  readonly collector?: PlacedSection;
  readonly collectors?: readonly PlacedSection[];
  readonly tube: { readonly bends: readonly { readonly clr?: unknown }[] };
  readonly keep_out?: readonly { readonly at?: readonly (number | string)[] }[];
  readonly runners: { readonly routes?: readonly { readonly by: string; readonly cylinder: number }[] };
}

interface PlacedSection {
  readonly direction: Vec3;
  readonly clocking?: number;
}

/** What of a plan can be changed from a page. The text must be that of the plan, which is sound. */
export function editableOf(text: string, plan: Plan): Editable {
  const file = planSource(text).value as FileShape;
  const placed = file.collectors ?? [file.collector!];
  const { runners, secondaries } = plan;
  return {
    units: plan.units,
    length: runners.band === null ? runners.length : null,
    spread: runners.tolerance,
    clearance: runners.clearance,
    secondaries: secondaries && { length: secondaries.length, spread: secondaries.tolerance },
    clr: plan.tube.bends.map((b, i) => (file.tube.bends[i]?.clr === undefined ? null : b.clr)),
    collectors: plan.collectors.map((c, i) => ({
      name: c.name,
      at: c.frame.origin,
      direction: placed[i]!.direction,
      clocking: radians(placed[i]!.clocking ?? 0),
      gap: c.inletGap,
      mergeHalfAngle: c.mergeHalfAngle,
    })),
    keepOuts: (file.keep_out ?? []).map((entry, i) => {
      const k = plan.keepOuts[i]!;
      return { name: k.name, kind: k.kind, at: heldAt(k, entry.at, plan.units) };
    }),
    routes: runners.given
      .filter((g) => file.runners.routes?.some((r) => r.cylinder === g.cylinder && r.by === 'xyz'))
      .map(({ cylinder, points }) => ({ cylinder, points })),
  };
}

/** The point a keep-out is moved by: of a box its lowest corner, of a bar its `from` end, of a plane its point, of a scan its origin. */
function heldAt(k: KeepOut, origin: readonly (number | string)[] | undefined, unit: LengthUnit): Vec3 {
  switch (k.kind) {
    case 'half-space':
      return k.point;
    case 'mesh':
      return [0, 1, 2].map((i) => parseLength(origin?.[i] ?? 0, unit) ?? 0) as unknown as Vec3;
    default:
      return k.from;
  }
}
