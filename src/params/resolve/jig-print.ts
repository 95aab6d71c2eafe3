import type { PrintPlan } from '../plan.js';
import type { PlanSections } from './sections.js';

/** How the parts are printed, percent as a share. */
export const printOf = (file: PlanSections['jig']['print']): PrintPlan => ({
  walls: file.walls,
  lineWidth: file.line_width,
  infill: file.infill / 100,
  layer: file.layer,
  density: file.density,
  solidLayers: file.solid_layers,
  flow: file.flow,
  infillFlow: file.infill_flow,
  layerTime: file.layer_time,
  overhang: file.overhang,
  mostOverhang: file.most_overhang,
  leastFoot: file.least_foot,
});
