import pc from 'picocolors';
import type { Finding } from '../../checks/finding.js';
import { CAUTIONS } from '../../export/cautions.js';
import type { OutputFile } from '../../export/output-file.js';
import { leastGap } from '../../export/summary/summary.js';
import { areaWords, lengthsIn } from '../../params/faults/wording.js';
import type { LengthUnit } from '../../params/units.js';
import type { StockBill } from '../../parts/stock/bill.js';
import { type RoutedHeader, verdictOf } from '../../pipeline.js';
import { bendsOf } from '../../routing/routed.js';
import { stockLine } from './stock-line.js';
import { signedWords, textTable } from './text-table.js';

/** What a build wrote. */
export interface Written {
  readonly folder: string;
  readonly files: readonly OutputFile[];
  readonly bill: StockBill;
}

/** The outcome of a build or check for people: verdict, primaries, what fails or wants a look, files. */
export function reportText(header: RoutedHeader, written: Written | null): string {
  const lines = [
    pc.bold(header.plan.name),
    (header.passed ? pc.green : pc.red)(verdictOf(header)),
    '',
    ...primaryTable(header),
    '',
    ...findingLines(header.findings, header.plan.units),
    ...(written ? [stockLine(written.bill), ''] : []),
    ...(written ? fileLines(written) : ['Nothing was written.']),
    '',
    ...(written ? CAUTIONS.map((c) => pc.dim(`Caution: ${c}`)) : []),
  ];
  return `${lines.join('\n').trimEnd()}\n`;
}

function primaryTable({ plan, primaries, gaps }: RoutedHeader): string[] {
  const words = lengthsIn(plan.units);
  const rows = primaries.map((p) => {
    const least = leastGap(gaps, p.id);
    return [
      String(p.cylinder),
      plan.collectors.length > 1 ? `${plan.collectors[p.collector]!.name} ${p.inlet}` : String(p.inlet),
      words(p.length, 3),
      signedWords(p.length - p.target, plan.units),
      String(bendsOf(p)),
      least === null ? '-' : words(least, 2),
    ];
  });
  return textTable([['cylinder', 'inlet', 'length', 'off target', 'bends', 'least gap'], ...rows]);
}

/** Of these, areas all, a line tells of all printed parts together: which, and how much of each, the worst first. */
const BY_PART: readonly string[] = ['jig.overhang'];

/** Most parts named in such a line. */
const MOST_NAMED = 6;

function findingLines(findings: readonly Finding[], units: LengthUnit): string[] {
  const shown = findings.filter((f) => f.level !== 'ok');
  const alike = new Map<string, Finding[]>();
  for (const f of shown) {
    const key = `${f.level} ${f.id} ${BY_PART.includes(f.id) ? '' : f.message}`;
    alike.set(key, [...(alike.get(key) ?? []), f]);
  }
  const lines = [...alike.values()].map((group) => {
    const { level, id, message } = group[0]!;
    const mark = level === 'fail' ? pc.red('fail') : pc.yellow('warn');
    if (BY_PART.includes(id)) return `${mark}  ${id}, ${partsOf(group, units)}: ${message}`;
    return `${mark}  ${id}, ${group.map((f) => f.place).join('; ')}: ${message}`;
  });
  return [...lines, `${findings.length - shown.length} of ${findings.length} checks hold without remark.`, ''];
}

function partsOf(group: readonly Finding[], units: LengthUnit): string {
  const sorted = [...group].sort((a, b) => b.value - a.value);
  const named = sorted.slice(0, MOST_NAMED).map((f) => `${f.place} ${areaWords(f.value, units, 0)}`);
  const rest = sorted.length - named.length;
  return [...named, ...(rest > 0 ? [`and ${rest} more, all in print/plates.csv`] : [])].join('; ');
}

function fileLines({ folder, files }: Written): string[] {
  const byFolder = new Map<string, string[]>();
  for (const f of files) {
    const at = f.path.lastIndexOf('/');
    const key = at < 0 ? '' : f.path.slice(0, at + 1);
    byFolder.set(key, [...(byFolder.get(key) ?? []), f.path.slice(at + 1)]);
  }
  const lines = [...byFolder].map(([key, names]) =>
    names.length > 8
      ? `  ${key}${names[0]} ... ${names[names.length - 1]} (${names.length} files)`
      : `  ${names.map((x) => key + x).join(', ')}`,
  );
  return [`Wrote ${files.length} files to ${folder}:`, ...lines];
}
