/** Nominal pipe sizes that headers are made of. */
export const PIPE_SIZES = ['1', '1 1/4', '1 1/2', '2', '2 1/2', '3'] as const;
export type PipeSize = (typeof PIPE_SIZES)[number];

/** Wall schedules of stainless pipe. */
export const SCHEDULES = ['5S', '10S', '40S'] as const;
export type Schedule = (typeof SCHEDULES)[number];

interface Pipe {
  /** Outside diameter, mm. */
  readonly od: number;
  /** mm. */
  readonly walls: Readonly<Record<Schedule, number>>;
}

const pipe = (od: number, ...[s5, s10, s40]: readonly [number, number, number]): Pipe => ({
  od,
  walls: { '5S': s5, '10S': s10, '40S': s40 },
});

/**
 * Pipe of ASME B36.19M; 40S has the walls of B36.10M schedule 40. The walls of NPS 2 1/2 and 3 are from memory: the table's inches
 * times 25.4.
 */
export const PIPES: Readonly<Record<PipeSize, Pipe>> = {
  '1': pipe(33.4, 1.65, 2.77, 3.38),
  '1 1/4': pipe(42.2, 1.65, 2.77, 3.56),
  '1 1/2': pipe(48.3, 1.65, 2.77, 3.68),
  '2': pipe(60.3, 1.65, 2.77, 3.91),
  '2 1/2': pipe(73.0, 2.11, 3.05, 5.16),
  '3': pipe(88.9, 2.11, 3.05, 5.49),
};

/**
 * How far a tube's diameter may be from a pipe's and still be that pipe, mm: the standard's millimetres are rounded to 0.1 from its
 * inches. Pipe of 33.4 or 42.2 mm and tube of 33.7 or 42.4 mm are not the same.
 */
export const SAME_OD = 0.0501;
