import { DEFAULTS } from '../defaults.js';
import type { ExistingManifold, ExistingPipe } from '../plan/existing.js';
import type { TuningPlan } from '../plan/tuning.js';
import type { PlanFile } from '../schema/plan-file.js';
import { FREEZING } from '../tables/expansion.js';

/** What tuning takes for granted, as later stages see it. */
export const tuningOf = (t: PlanFile['tuning']): TuningPlan => ({
  rule: t.rule,
  rpm: t.rpm ?? null,
  gasTemperature: t.gas_temperature + FREEZING,
  roughness: t.roughness,
  tailpipe: t.tailpipe ?? null,
  turbine: t.turbine === undefined ? null : { area: t.turbine.area, backPressure: t.turbine.back_pressure * 1000 },
});

type ExistingFile = NonNullable<PlanFile['existing']>;

/** The manifold the builder has, as later stages see it. */
export function existingOf(e: ExistingFile): ExistingManifold {
  const index = (name: string | undefined): number | null =>
    name === undefined ? null : e.collectors.findIndex((c) => c.name === name);
  const runners = e.runners.map((r) => wayOf(r, { cylinder: r.cylinder }, index(r.into) ?? 0));
  const leaving = e.collectors.map((c, i) => wayOf(c, { collector: i }, index(c.into)));
  const pipes = [...runners, ...leaving];
  return {
    name: e.name,
    material: e.material,
    wall: e.wall,
    roughness: e.roughness,
    heatShare: e.double_wall ? (e.heat_share ?? DEFAULTS.existing.heat_share) : 1,
    pipes,
    collectors: e.collectors.map((c, i) => ({
      name: c.name,
      volume: c.volume === undefined ? meetingVolume(pipes, i) : c.volume * 1000,
    })),
  };
}

type WayFile = Pick<ExistingFile['runners'][number], 'sections' | 'bends'>;

const wayOf = (way: WayFile, from: ExistingPipe['from'], into: number | null): ExistingPipe => ({
  from,
  into,
  length: way.sections.at(-1)!.at,
  sections: way.sections,
  bends: way.bends.map((b) => ({ at: b.at, angle: b.angle, insideRadius: b.inside_radius })),
});

/** A ball as wide as the widest way that meets there, mm3. */
function meetingVolume(pipes: readonly ExistingPipe[], collector: number): number {
  const mouths = pipes.flatMap((p) => [
    ...(p.into === collector ? [p.sections.at(-1)!.area] : []),
    ...('collector' in p.from && p.from.collector === collector ? [p.sections[0]!.area] : []),
  ]);
  const diameter = Math.sqrt((4 * Math.max(...mouths)) / Math.PI);
  return (Math.PI / 6) * diameter * diameter * diameter;
}
