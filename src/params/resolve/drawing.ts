import type { DrawingPlan } from '../plan.js';
import type { PlanFile } from '../schema/plan-file.js';

/** How flat parts are drawn, for a plan written in a unit. */
export function drawingOf(d: PlanFile['drawing'], planUnits: 'mm' | 'in'): DrawingPlan {
  return {
    units: d.dxf_units,
    version: d.dxf_version,
    curves: d.curves,
    paper: d.paper ?? (planUnits === 'in' ? 'letter' : 'a4'),
    engrave: d.engrave,
    sheet: d.sheet ?? null,
  };
}
