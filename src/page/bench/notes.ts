import type { BenchOutputs, BenchProblem, Finding } from '../../export/book/bench-data.js';
import { element } from '../view/element.js';

/** What is wrong with the plan: each problem with its line and what stands there. */
export function problemList(title: string, words: string, problems: readonly BenchProblem[]): HTMLElement {
  const items = problems.map((p) =>
    element(
      'li',
      {},
      element('strong', {}, `Line ${p.line}, column ${p.column}`),
      p.path === '' ? '' : ` ${p.path}`,
      element('pre', {}, element('code', {}, p.text === '' ? ' ' : p.text)),
      element('p', {}, p.message),
    ),
  );
  const body =
    items.length > 0 ? element('ol', { class: 'problems' }, ...items) : element('p', { class: 'words' }, words);
  return element('div', { class: 'trouble' }, element('h3', {}, title), body);
}

/** Findings that fail or want a look; like ones together. */
export function findingList(findings: readonly Finding[]): HTMLElement {
  if (findings.length === 0) return element('p', { class: 'aside' }, 'Every check holds without remark.');
  const alike = new Map<string, Finding[]>();
  for (const f of findings) {
    const key = `${f.level} ${f.id} ${f.message}`;
    alike.set(key, [...(alike.get(key) ?? []), f]);
  }
  const rank = { fail: 0, warn: 1, ok: 2 } as const;
  const sorted = [...alike.values()].sort((a, b) => rank[a[0]!.level] - rank[b[0]!.level]);
  return element(
    'ul',
    { class: 'findings' },
    ...sorted.map((group) => {
      const { level, message } = group[0]!;
      const mark = level === 'fail' ? '\u2717 Fails' : '\u26a0 Look';
      const places = group.map((f) => f.place).join('; ');
      return element(
        'li',
        {},
        element('strong', { class: level === 'fail' ? 'bad' : 'warn' }, mark),
        ` ${places}: ${message}`,
      );
    }),
  );
}

/** Files people open first. */
const FIRST = ['book.html', 'sheets.pdf', 'overview.svg', 'flange.pdf', 'flange.dxf', 'cut-list.csv', 'lengths.csv'];

/** The parts and files, or how far they are. */
export function outputList(outputs: BenchOutputs, isOld: boolean, urlOf: (id: number) => string): HTMLElement {
  const link = ({ id, path, bytes }: BenchOutputs['files'][number]): HTMLElement =>
    element(
      'li',
      {},
      element('a', { href: urlOf(id), target: '_blank', rel: 'noopener' }, path),
      element(
        'span',
        { class: 'aside' },
        ` ${bytes < 1e6 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`}`,
      ),
    );
  const first = FIRST.flatMap((path) => outputs.files.filter((f) => f.path === path));
  const rest = outputs.files.filter((f) => !first.includes(f));
  const said =
    outputs.state === 'built'
      ? outputs.verdict
      : outputs.words === ''
        ? 'Parts are built once the routes of the file stand.'
        : outputs.state === 'building'
          ? `Parts: ${outputs.words} \u2026`
          : outputs.words;
  return element(
    'div',
    {},
    element('p', { class: outputs.state === 'failed' || outputs.state === 'stopped' ? 'bad' : undefined }, said),
    ...(isOld && outputs.files.length > 0
      ? [element('p', { class: 'warn' }, 'The files below are of an earlier version of the plan.')]
      : []),
    element('ul', { class: 'files' }, ...first.map(link)),
    ...(rest.length > 0
      ? [
          element(
            'details',
            {},
            element('summary', {}, `${rest.length} more files`),
            element('ul', { class: 'files' }, ...rest.map(link)),
          ),
        ]
      : []),
  );
}
