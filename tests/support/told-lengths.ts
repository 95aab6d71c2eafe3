import { csvRows } from './csv-rows.js';

/** What one output says of the lengths of tubes ('cylinder 2', 'secondary from outer'): as it prints them, mm unless `unit` says otherwise. */
export interface Told {
  readonly by: string;
  readonly unit: 'mm' | 'in';
  readonly lengths: ReadonlyMap<string, string>;
}

type Read = (path: string) => Uint8Array;
type Row = Readonly<Record<string, string>>;

const told = (by: string, pairs: Iterable<readonly [string, string]>, unit: 'mm' | 'in' = 'mm'): Told => ({
  by,
  unit,
  lengths: new Map(pairs),
});

/** The tube of a row of a table. */
const tubeOf = (row: Row): string =>
  row.cylinder ? `cylinder ${row.cylinder}` : `secondary from ${row.secondary_from}`;

const sumBy = (rows: readonly Row[], column: string): Map<string, number> => {
  const sums = new Map<string, number>();
  for (const row of rows) sums.set(tubeOf(row), (sums.get(tubeOf(row)) ?? 0) + Number(row[column]));
  return sums;
};

/** What the tables say, each by its own columns. */
export function toldByTables(read: Read): Told[] {
  const rows = (path: string): Row[] => csvRows(read(path));
  const [cuts, joints, totals] = [rows('cut-list.csv'), rows('joints.csv'), rows('tube-totals.csv')];
  const first = new Map([...cuts].reverse().map((r) => [tubeOf(r), Number(r.from_mm)]));
  const butts = joints.filter((j) => j.kind !== 'flange' && j.piece_after !== '');
  const [gaps, drawn, cut, asRouted] = [
    sumBy(butts, 'gap_mm'),
    sumBy(butts, 'shrinkage_mm'),
    sumBy(cuts, 'cut_length_mm'),
    sumBy(cuts, 'length_mm'),
  ];
  const [legs, arcs, after] = [sumBy(cuts, 'leg_before_mm'), sumBy(cuts, 'centre_arc_mm'), sumBy(cuts, 'leg_after_mm')];
  const tubes = [...first.keys()];
  const stations = rows('tuning/stations.csv').filter((r) => r.exhaust === 'as routed');
  const at = (r: Row, station: string): number =>
    Number(stations.find((s) => s.way === r.way && s.station === station && s.cylinder === r.cylinder)!.from_valve_mm);
  return [
    told(
      'lengths.csv',
      rows('lengths.csv').map((r) => [tubeOf(r), r.length_mm!]),
    ),
    told(
      'tube-totals.csv, route',
      totals.map((r) => [tubeOf(r), r.route_mm!]),
    ),
    told(
      'tube-totals.csv, pieces put together',
      totals.map((r) => [tubeOf(r), r.total_mm!]),
    ),
    told(
      'cut-list.csv, pieces of the route',
      tubes.map((t) => [t, String(first.get(t)! + asRouted.get(t)!)]),
    ),
    told(
      'cut-list.csv, legs and arcs',
      tubes.map((t) => [t, String(first.get(t)! + legs.get(t)! + arcs.get(t)! + after.get(t)!)]),
    ),
    told(
      'cut-list.csv, pieces as cut, with the gaps of joints.csv',
      tubes.map((t) => [t, String(first.get(t)! + cut.get(t)! + gaps.get(t)! - drawn.get(t)!)]),
    ),
    told(
      'cut-list.csv, end of the last piece',
      cuts.map((r) => [tubeOf(r), r.to_mm!]),
    ),
    told(
      'joints.csv, last joint',
      joints.map((r) => [tubeOf(r), r.run_mm!]),
    ),
    told(
      'bend-table.csv, developed',
      rows('bend-table.csv').map((r) => [tubeOf(r), r.developed_to_here_mm!]),
    ),
    told(
      'tuning/stations.csv',
      stations
        .filter((r) => r.station === 'inlet' && /^cylinder/.test(r.way!))
        .map((r) => [tubeOf(r), String(at(r, 'inlet') - at(r, 'head face'))]),
    ),
  ];
}

/** What the printed sheets say, from their text. */
export function toldBySheets(text: string): Told[] {
  const sheets = text.split(/(?=^ *Tube: (?:cylinder|secondary).*$)/m).slice(1);
  const find = (what: RegExp, group: number): [string, string][] =>
    sheets.flatMap((s): [string, string][] => {
      const found = what.exec(s)?.[group];
      return found === undefined ? [] : [[/Tube: ([^,\n]*)/.exec(s)![1]!.trim(), found]];
    });
  const centreline = /Centreline ([\d.]+) mm(?: \(([\d.]+) in\))?, target/;
  const sum = /pieces and gaps to ([\d.]+) mm(?: \([\d.]+ in\))?; route ([\d.]+) mm/;
  const cover = text.matchAll(
    /(cylinder \d+|secondary from \w+) +(?:\w+, )?inlet \d+ +[\d.]+ +([\d.]+) +[-+]?\d+\.\d{3} *$/gm,
  );
  return [
    told('sheets.pdf, head of the tube', find(centreline, 1)),
    told('sheets.pdf, head of the tube in inches', find(centreline, 2), 'in'),
    told('sheets.pdf, sum of the pieces', find(sum, 1)),
    told('sheets.pdf, route beside that sum', find(sum, 2)),
    told(
      'sheets.pdf, summary',
      [...cover].map((m) => [m[1]!, m[2]!] as const),
    ),
  ];
}

/** What the page says: its data and its text. */
export function toldByBook(page: string): Told[] {
  const data = /<script type="application\/json" id="scene">(.*?)<\/script>/s.exec(page)![1]!;
  const scene = JSON.parse(data) as {
    tubes: { name: string; length: number; pieces: { to: number }[]; joints: { at: number }[] }[];
  };
  const part = (id: string): string => new RegExp(`<section id="${id}".*?</section>`, 's').exec(page)![0];
  const named = (words: string): string =>
    words
      .replace(/^from/, 'secondary from')
      .replace(/^Cylinder/, 'cylinder')
      .replace(/^Secondary/, 'secondary');
  const number = '<td class="number(?: key)?">([\\d.]+)(?:<br><span class="inch">([\\d.]+)</span>)?</td>';
  const lengths = [
    ...part('lengths').matchAll(
      new RegExp(`<th scope="row" class="words">([^<]*)</th><td class="words">[^<]*</td>${number}${number}`, 'g'),
    ),
  ];
  const bends = part('bends').matchAll(/<caption class="shown">([^<]*): LRA<\/caption>.*?<\/table>/gs);
  const developed = [...bends].map(([table, tube]): [string, string] => {
    const rows = [...table.matchAll(/<td class="number">([\d.]+)(?:<br>[^\n]*?)?<\/td><\/tr>/g)];
    return [named(tube!), rows.at(-1)![1]!];
  });
  const sums = [
    ...part('cut-list').matchAll(/<h3>([^<]*)<\/h3>.*?<p>Start [^<]* = ([\d.]+) mm(?: \([\d.]+ in\))?; target/gs),
  ];
  return [
    told(
      'book.html, data',
      scene.tubes.map((t) => [t.name, String(t.length)]),
    ),
    told(
      'book.html, data of the last piece',
      scene.tubes.map((t) => [t.name, String(t.pieces.at(-1)!.to)]),
    ),
    told(
      'book.html, data of the last joint',
      scene.tubes.map((t) => [t.name, String(t.joints.at(-1)!.at)]),
    ),
    told(
      'book.html, lengths',
      lengths.map((m) => [named(m[1]!), m[4]!]),
    ),
    told(
      'book.html, lengths in inches',
      lengths.flatMap((m) => (m[5] ? [[named(m[1]!), m[5]] as const] : [])),
      'in',
    ),
    told('book.html, bend tables', developed),
    told(
      'book.html, sums of the pieces',
      sums.map((m) => [named(m[1]!), m[2]!]),
    ),
  ];
}
