import { degrees } from '../../geometry/angle.js';
import { directionFrom, pointFrom } from '../../geometry/frame.js';
import type { Collector } from '../../parts/collector/collector.js';
import { flowStretches } from '../../parts/collector/merge-flow.js';
import type { Summary } from './summary-schema.js';

type CollectorSummary = Summary['collectors'][number];

/** A collector in the summary. */
export function collectorSummary(c: Collector): CollectorSummary {
  const { plan, geometry: g } = c;
  const { heel, spike, toe, angle } = g.cuts[0]!;
  return {
    name: plan.name,
    at_mm: [...plan.frame.origin],
    direction: [...plan.frame.z],
    inlets: g.inlets,
    merge_length_mm: g.mergeLength,
    total_length_mm: g.totalLength,
    area_in_mm2: g.area.inlets,
    area_merge_mm2: g.area.mergeEnd,
    area_out_mm2: g.area.outlet,
    gas_volume_mm3: c.gasVolume,
    cut_angle_deg: g.inlets > 1 ? degrees(angle) : null,
    merge_volume_mm3: flowStretches(g).find((s) => s.part === 'merge')?.volume ?? 0,
    cone_half_angle_deg: degrees(g.coneHalfAngle),
    throat_mm: g.throat === null ? null : 2 * g.throat.bore,
    diffuser_half_angle_deg: g.throat === null ? null : degrees(g.throat.diffuserHalfAngle),
    heel_mm: heel,
    spike_mm: spike,
    toe_mm: toe,
    centre: plan.centre,
    slip_overlap_mm: g.slip?.overlap ?? null,
    mass_kg: c.mass,
    branch: branchOf(c),
    notes: [...c.notes],
  };
}

function branchOf({ plan, geometry: { branch, area } }: Collector): CollectorSummary['branch'] {
  if (branch === null) return null;
  return {
    end_mm: [...pointFrom(plan.frame, branch.end.origin)],
    direction: [...directionFrom(plan.frame, branch.frame.z)],
    od_mm: branch.od,
    angle_deg: degrees(branch.angle),
    area_to_inlets: (Math.PI * (branch.od / 2 - branch.wall) ** 2) / area.inlets,
  };
}
