import type { JigPlan } from '../../src/params/plan.js';
import { PRINT } from './print-plan.js';

/** A mock-up's settings with every mark off, so that parts are plain; `with` what a test is about. */
export const jigWith = (settings: Partial<JigPlan> = {}): JigPlan => ({
  bed: [210, 210, 210],
  fit: 0.2,
  units: 'mm',
  plate: 5,
  keyLength: 10,
  strut: 16,
  joint: 'slide',
  pressFit: 0.1,
  tubeWall: null,
  cord: null,
  scale: null,
  marks: false,
  chamfer: 0,
  foot: null,
  holder: null,
  comb: false,
  gap: 5,
  print: PRINT,
  bench: null,
  ...settings,
});

/** The same with the marks a plan has by default. */
export const markedJig = (settings: Partial<JigPlan> = {}): JigPlan =>
  jigWith({ scale: 'mm', marks: true, chamfer: 0.4, comb: true, ...settings });
