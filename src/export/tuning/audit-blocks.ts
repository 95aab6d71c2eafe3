import type { LengthUnit } from '../../params/units.js';
import { type Comparison, runnersOf } from '../../parts/comparison/comparison.js';
import { BEND_SCATTER, type BendLoss } from '../../parts/gas-path/bend-loss.js';
import type { CylinderAudit, PathAudit } from '../../parts/gas-path/path-audit.js';
import { HOT_PIPE } from '../../parts/gas-path/wall-heat.js';
import { lengthFigure, volumeFigure } from './figures.js';
import { type PageBlock, pageTable, paragraph, section } from './page.js';

type Row = readonly [string, (a: PathAudit) => string];

/** The exhausts side by side, measured along their gas ways. */
export function auditBlocks({ header, existing, timing }: Comparison, name: string, unit: LengthUnit): PageBlock[] {
  const audits = existing === null ? [header] : [header, existing];
  const rows: Row[] = [
    ...pathRows(unit),
    ['first rarefaction in the overlap at', (a) => bandWords(timing.find((t) => t.system === a.system)!.first)],
    ['second at', (a) => bandWords(timing.find((t) => t.system === a.system)!.second)],
    ...wholeRows(unit),
    ...(header.turbineInlets === null ? [] : turbineRows(unit)),
  ];
  const notes = [...new Set(audits.flatMap((a) => a.notes))];
  return section(
    'Measured along the gas',
    pageTable(
      ['<of one path', 'header', ...(existing === null ? [] : [name])],
      rows.map(([what, of]) => [what, ...audits.map(of)]),
    ),
    paragraph(
      `Bend losses are on the mean dynamic pressure, friction in the bends included, at a Reynolds number of 100000. Measurements of one bend scatter by ${100 * BEND_SCATTER} % and so do the books; tell exhausts apart only where they differ by more. Heat: a skin of ${celsiusWords(HOT_PIPE.skin)} in still air of ${celsiusWords(HOT_PIPE.air)} for both, by radiation and air. Flanges are left out of surface and mass.`,
    ),
    paragraph(notes.join(' ')),
  );
}

const celsiusWords = (kelvin: number): string => `${(kelvin - 273.15).toFixed(0)} C`;

const bandWords = (band: { readonly from: number; readonly to: number } | null): string =>
  band === null ? 'not known' : `${band.from.toFixed(0)} to ${band.to.toFixed(0)} rev/min`;

/** 'least' when all are alike, else 'least to most'. */
function range(values: readonly number[], words: (value: number) => string): string {
  const [least, most] = [words(Math.min(...values)), words(Math.max(...values))];
  return least === most ? least : `${least} to ${most}`;
}

const each = (a: PathAudit, of: (c: CylinderAudit) => number): number[] => a.cylinders.map(of);

const pathRows = (unit: LengthUnit): Row[] => [
  ['valve to joint', (a) => range([runnersOf(a).least, runnersOf(a).most], (v) => lengthFigure(v, unit))],
  ['spread of that', (a) => lengthFigure(runnersOf(a).most - runnersOf(a).least, unit)],
  [
    'volume, valve to joint',
    (a) =>
      range(
        each(a, (c) => c.runnerVolume),
        (v) => volumeFigure(v, unit),
      ),
  ],
  ['largest contraction', (a) => contractionWords(a)],
  ['least inside radius over bore', (a) => tightestWords(a)],
  [
    'bends of one path',
    (a) =>
      range(
        each(a, (c) => c.bends),
        String,
      ),
  ],
  ['bend loss, Crane', (a) => lossWords(a, 'crane')],
  ['bend loss, Idelchik', (a) => lossWords(a, 'idelchik')],
  ['bend loss, Rennels', (a) => lossWords(a, 'rennels')],
];

const lossWords = (a: PathAudit, book: keyof BendLoss): string =>
  range(
    each(a, (c) => c.bendLoss[book]),
    (v) => v.toFixed(2),
  );

function contractionWords({ cylinders }: PathAudit): string {
  const worst = cylinders.flatMap((c) => (c.worst === null ? [] : [c.worst])).sort((a, b) => a.change - b.change)[0];
  return worst === undefined ? 'none' : `${(-100 * worst.change).toFixed(0)} % at the ${worst.what} (${worst.way})`;
}

function tightestWords({ cylinders }: PathAudit): string {
  const all = cylinders.flatMap((c) => (c.tightest === null ? [] : [c.tightest]));
  return all.length === 0 ? 'no bends' : Math.min(...all).toFixed(2);
}

const wholeRows = (unit: LengthUnit): Row[] => [
  ['volume of all', (a) => volumeFigure(a.volume, unit)],
  [
    'outside surface',
    (a) => (unit === 'in' ? `${(a.surface / 25.4 ** 2).toFixed(0)} in2` : `${(a.surface / 1e6).toFixed(2)} m2`),
  ],
  ['heat to its neighbours', (a) => `${(a.heat / 1000).toFixed(1)} kW`],
  ['mass', (a) => (unit === 'in' ? `${(a.mass / 0.45359237).toFixed(1)} lb` : `${a.mass.toFixed(1)} kg`)],
];

const turbineRows = (unit: LengthUnit): Row[] => [
  ['inlets of the turbine', (a) => String(a.turbineInlets)],
  [
    'volume a pulse fills to the turbine',
    (a) =>
      range(
        each(a, (c) => c.connectedVolume),
        (v) => volumeFigure(v, unit),
      ),
  ],
  [
    'the same with an open housing',
    (a) =>
      range(
        each(a, (c) => c.openVolume),
        (v) => volumeFigure(v, unit),
      ),
  ],
];
