import type { PathAudit } from '../../parts/gas-path/path-audit.js';
import { csvBytes } from '../csv/csv.js';
import type { OutputFile } from '../output-file.js';

/** Every cylinder of every exhaust, measured: mm, mm2, mm3. Loss coefficients by each book. */
export function auditTable(audits: readonly PathAudit[]): OutputFile {
  const rows = audits.flatMap((a) =>
    a.cylinders.map((c) => [
      a.system,
      c.cylinder,
      c.runner,
      c.length,
      c.runnerVolume,
      c.volume,
      c.connectedVolume,
      c.openVolume,
      c.worst?.change ?? 0,
      c.worst === null ? null : `${c.worst.way}, ${c.worst.what}`,
      c.worst?.at ?? null,
      c.tightest,
      c.bends,
      c.bendLoss.crane,
      c.bendLoss.idelchik,
      c.bendLoss.rennels,
      a.surface,
      a.heat,
      a.mass,
    ]),
  );
  const head = [
    'exhaust',
    'cylinder',
    'valve_to_joint_mm',
    'valve_to_end_mm',
    'volume_to_joint_mm3',
    'volume_to_end_mm3',
    'volume_connected_mm3',
    'volume_open_mm3',
    'worst_contraction',
    'worst_at',
    'worst_at_mm',
    'least_inside_radius_over_bore',
    'bends',
    'bend_loss_crane',
    'bend_loss_idelchik',
    'bend_loss_rennels',
    'whole_surface_mm2',
    'whole_heat_w',
    'whole_mass_kg',
  ];
  return { path: 'tuning/audit.csv', kind: 'tuning', bytes: csvBytes(head, rows) };
}

/** Area at every station from each valve to the end, and how it changes there. */
export function stationsTable(audits: readonly PathAudit[]): OutputFile {
  const rows = audits.flatMap((a) =>
    a.cylinders.flatMap((c) => c.stations.map((s) => [a.system, c.cylinder, s.way, s.what, s.at, s.area, s.change])),
  );
  const head = ['exhaust', 'cylinder', 'way', 'station', 'from_valve_mm', 'area_mm2', 'change'];
  return { path: 'tuning/stations.csv', kind: 'tuning', bytes: csvBytes(head, rows) };
}
