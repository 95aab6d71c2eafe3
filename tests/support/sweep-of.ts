import type { CylinderResult, SweepResult } from '../../src/tuning/engine/results.js';

interface Speed {
  readonly rpm: number;
  /** kPa. */
  readonly overlap: number;
  /** J a cycle. */
  readonly pumping: number;
  readonly work: number;
}

/** What a calculation of two cylinders would give, from a few figures of our own. */
export function sweepOf(system: string, speeds: readonly Speed[], pulse: number | null = null): SweepResult {
  return {
    system,
    assumptions: ['Invented for a test.'],
    caution: 'No engine.',
    events: { exhaustOpens: 120, exhaustCloses: 385, intakeOpens: 335, intakeCloses: 600 },
    points: speeds.map(({ rpm, overlap, pumping, work }) => ({
      rpm,
      cylinders: [1, 2].map(
        (cylinder): CylinderResult => ({
          cylinder,
          valvePressure: Float64Array.from({ length: 720 }, (_, deg) => 1e5 + 2e4 * Math.sin((deg * Math.PI) / 180)),
          cylinderPressure: new Float64Array(720).fill(1e5),
          overlapDifference: overlap * 1000,
          pumpingWork: pumping,
          indicatedWork: work,
          rarefactionAt: 360,
          rarefactionDepth: -2e4,
          massExhausted: 5e-4,
          freshCharge: 5e-4,
          chargingEfficiency: 0.9,
          residualFraction: 0.05,
          exhaustTemperature: 1000,
        }),
      ),
      outlets: [
        { pipe: 'collector', mass: 1e-3, pulseEnergy: pulse, steadyEnergy: pulse, pressure: new Float64Array(720) },
      ],
      convergence: { converged: true, cycles: 8, change: 1e-3, limit: 3e-3, cells: 100, steps: 1000, massError: 1e-15 },
    })),
  };
}
