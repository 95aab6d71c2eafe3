import type { PrintPlan } from '../../src/params/plan.js';

/** Printing as plans that say nothing of it have it. */
export const PRINT: PrintPlan = {
  walls: 3,
  lineWidth: 0.45,
  infill: 0.15,
  layer: 0.2,
  density: 1240,
  solidLayers: 4,
  flow: 2.3,
  infillFlow: 9,
  layerTime: 0.5,
  overhang: (50 * Math.PI) / 180,
  mostOverhang: 500,
  leastFoot: 100,
};
