import type { ExhaustJoint, ExhaustPipe, ExhaustSystem } from '../exhaust-system.js';

const isPrimary = ({ from }: ExhaustPipe): boolean => 'cylinder' in from;

/** The same exhaust with other pipes, joints unchanged. */
const withPipes = (
  system: ExhaustSystem,
  which: (p: ExhaustPipe) => boolean,
  to: (p: ExhaustPipe) => ExhaustPipe,
): ExhaustSystem => ({
  ...system,
  pipes: system.pipes.map((p) => (which(p) ? to(p) : p)),
});

/** A pipe of another length, m: its stations and bends move in proportion. */
function stretched(pipe: ExhaustPipe, length: number): ExhaustPipe {
  const k = length / pipe.length;
  return {
    ...pipe,
    length,
    stations: pipe.stations.map(({ at, area }) => ({ at: at * k, area })),
    bends: pipe.bends.map(({ from, to, loss }) => ({ from: from * k, to: to * k, loss })),
  };
}

/** Length of the primaries as calculated, valve to first joint: the mean, m. */
export function primaryLength({ pipes }: ExhaustSystem): number {
  const primaries = pipes.filter(isPrimary);
  return primaries.reduce((sum, p) => sum + p.length, 0) / primaries.length;
}

/** Every primary, valve to first joint, of one length, m. */
export const withPrimaryLength = (system: ExhaustSystem, length: number): ExhaustSystem =>
  withPipes(system, isPrimary, (p) => stretched(p, length));

/** Every primary longer by a factor: their differences stay in proportion. */
export const withPrimariesTimes = (system: ExhaustSystem, factor: number): ExhaustSystem =>
  withPipes(system, isPrimary, (p) => stretched(p, p.length * factor));

/** Every primary of a bore that is larger by a factor. */
export const withPrimaryBore = (system: ExhaustSystem, factor: number): ExhaustSystem =>
  withPipes(system, isPrimary, (p) => ({
    ...p,
    stations: p.stations.map(({ at, area }) => ({ at, area: area * factor ** 2 })),
  }));

/** Primaries that grow in one step to a bore larger by a factor, at a part of their length; whatever is wider already stays. */
export const withStep = (system: ExhaustSystem, part: number, factor: number): ExhaustSystem =>
  withPipes(system, isPrimary, (p) => {
    const at = part * p.length;
    const before = p.stations.filter((s) => s.at < at);
    const area = before.at(-1)?.area ?? p.stations[0]!.area;
    const wider = area * factor ** 2;
    const after = p.stations.filter((s) => s.at > at).map((s) => ({ at: s.at, area: Math.max(s.area, wider) }));
    return { ...p, stations: [...before, { at, area }, { at, area: wider }, ...after] };
  });

/** Primaries without steps: where the bore jumps, what follows keeps the bore before. */
export const withoutSteps = (system: ExhaustSystem): ExhaustSystem =>
  withPipes(system, isPrimary, (p) => {
    let factor = 1;
    const stations = p.stations.map(({ at, area }, i) => {
      const before = p.stations[i - 1];
      if (before !== undefined && jumps(before, { at, area })) factor *= before.area / area;
      return { at, area: area * factor };
    });
    return { ...p, stations };
  });

/** Whether any primary jumps in bore. */
export const hasSteps = ({ pipes }: ExhaustSystem): boolean =>
  pipes.some((p) => isPrimary(p) && p.stations.some((s, i) => i > 0 && jumps(p.stations[i - 1]!, s)));

type Station = ExhaustPipe['stations'][number];

/** Two stations at one place whose areas differ by more than rounding. */
const jumps = (a: Station, b: Station): boolean => b.at - a.at < 1e-9 && Math.abs(b.area / a.area - 1) > 1e-6;

/** Everything after the first joints longer by a factor: secondaries, collector, tailpipe. */
export const withCollectorLength = (system: ExhaustSystem, factor: number): ExhaustSystem =>
  withPipes(
    system,
    (p) => !isPrimary(p),
    (p) => stretched(p, p.length * factor),
  );

/** The same joints with a volume larger by a factor. */
export const withJointVolume = (system: ExhaustSystem, factor: number): ExhaustSystem => ({
  ...system,
  joints: system.joints.map((j): ExhaustJoint => ({ ...j, volume: j.volume * factor })),
});
