import { type GasEngine, sweptVolume } from './gas-engine.js';

/** Volume above the piston, m3, at a crank angle in degrees after top dead centre: the slider-crank without offset. */
export function cylinderVolume(engine: GasEngine, angle: number): number {
  const { bore, stroke, rodRatio, compressionRatio } = engine;
  const clearance = sweptVolume(engine) / (compressionRatio - 1);
  const theta = (angle * Math.PI) / 180;
  const sine = Math.sin(theta) / (2 * rodRatio);
  const fallen = (1 - Math.cos(theta)) / 2 + rodRatio * (1 - Math.sqrt(1 - sine * sine));
  return clearance + (Math.PI / 4) * bore * bore * stroke * fallen;
}
