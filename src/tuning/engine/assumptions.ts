import type { ExhaustSystem } from '../exhaust-system.js';
import { exhaustNetwork } from './exhaust-network.js';
import type { GasEngine } from './gas-engine.js';
import type { SimulateOptions } from './options.js';

/** What every figure of the calculation is for, and who decides. */
export const GAS_CAUTION =
  'One-dimensional estimate for choosing the first prototypes. It compares one exhaust with another on the same assumptions; it does not foretell power. The dyno and the engine builder decide.';

/** What a calculation of this exhaust takes for granted, one sentence each: of the engine, of the pipes, of the method. */
export function assumptionsOf(system: ExhaustSystem, engine: GasEngine, options: SimulateOptions): string[] {
  const { pipeWall, airPressure, airTemperature, jointLoss, cellLength } = options;
  const { notes } = exhaustNetwork(system, engine.bore * engine.bore * engine.bore, options);
  return [
    ...engine.assumptions,
    `Pipes: inner skin at ${pipeWall.toFixed(0)} K throughout; friction by Haaland's formula and heat by Reynolds' analogy, both of steady flow; bends as losses.`,
    jointLoss === 0
      ? 'Joints: a stirred volume at one pressure (constant-pressure joint); gas that enters loses its speed, at whatever angle the pipes meet.'
      : `Joints: a stirred volume, and a loss of ${jointLoss} dynamic pressures at every mouth, at whatever angle the pipes meet.`,
    endWords(system, airPressure, airTemperature),
    'Gas: air and burned stoichiometric octane of frozen make-up, their heats varying with temperature; nothing burns in the exhaust.',
    `Cells of about ${(cellLength * 1000).toFixed(0)} mm: waves much shorter than ten cells are smeared.`,
    'Swirl, separation, pulses round a bend and everything else that is not along the pipe is left out; so are silencers and catalysts.',
    ...notes,
  ];
}

function endWords({ end }: ExhaustSystem, pressure: number, temperature: number): string {
  if (end.kind === 'turbine') {
    const areas = end.areas.map((a) => `${(a * 1e6).toFixed(0)} mm2`).join(' and ');
    return `Turbine: a nozzle of ${areas} into ${(end.backPressure / 1000).toFixed(1)} kPa, its wheel taken as steady in every moment.`;
  }
  const correction = end.flanged ? '0.82' : '0.61';
  return `Open end into air of ${(pressure / 1000).toFixed(1)} kPa and ${temperature.toFixed(0)} K, lengthened by ${correction} of its radius.`;
}
