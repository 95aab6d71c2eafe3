import { availableParallelism } from 'node:os';
import type { Progress, RoutedHeader } from '../pipeline.js';
import { sweepsOf } from '../tune.js';
import type { SweepResult } from '../tuning/engine/results.js';
import { CommandError, EXIT } from './exit-code.js';

/** Engine speeds of a calculation unless the call names another number. */
export const GAS_POINTS = 13;

/** The gas in every exhaust of a routed header, at so many engine speeds, on all processors. Throws CommandError for what is unphysical or missing. */
export const gasOf = (header: RoutedHeader, points: number, progress: Progress): Promise<SweepResult[]> =>
  physical(sweepsOf(header, { points, workers: availableParallelism(), progress }));

/** What a calculation gives, or for unphysical input its field and range as an error of the call. */
export async function physical<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new CommandError(EXIT.wrongInput, `the gas cannot be calculated: ${error.message}`);
  }
}
