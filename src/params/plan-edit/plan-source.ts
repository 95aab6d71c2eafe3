import {
  type Document,
  isAlias,
  isCollection,
  isMap,
  isNode,
  isScalar,
  isSeq,
  type Node,
  type ParsedNode,
  parse,
  parseDocument,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import type { PlanPath } from '../faults/plan-problem.js';
import { MOST_ALIASES } from '../limits.js';
import { PLAN_YAML } from '../text/plan-text.js';

/** The text of a plan with its parsed nodes: places in the text can be written over without touching the rest. */
export interface PlanSource {
  readonly text: string;
  readonly document: Document.Parsed<ParsedNode>;
  readonly value: unknown;
}

/** Reads a text that is YAML. Throws RangeError where it is not. */
export function planSource(text: string): PlanSource {
  const document = parseDocument(text, PLAN_YAML);
  if (document.errors.length > 0) throw new RangeError('the plan is not YAML: mend it first');
  return { text, document, value: document.toJS({ maxAliasCount: MOST_ALIASES }) };
}

/** What a text writes in YAML. */
export const yamlValue = (snippet: string): unknown => parse(snippet, PLAN_YAML);

const named = (path: PlanPath): string => path.join('.');

/** The node at a path; null where there is none. Throws RangeError where the way leads through a repeat (`*name`). */
export function nodeAt({ document }: PlanSource, path: PlanPath): Node | null {
  let node: unknown = document.contents;
  for (const [i, step] of path.entries()) {
    if (isAlias(node)) throw repeated(path.slice(0, i), node.source);
    node = isCollection(node) ? node.get(step, true) : null;
    if (!isNode(node)) return null;
  }
  return node as Node;
}

const repeated = (path: PlanPath, anchor: string): RangeError =>
  new RangeError(`${named(path)} repeats &${anchor}, so that a change would reach further; change it in the file`);

/** The source text of a node without its anchor. */
export function sourceOf({ text }: PlanSource, node: Node): string {
  const [from, to] = node.range!;
  return text.slice(from, to);
}

/** The text with a node's source written over. Its anchor and every comment stay. */
export function over({ text }: PlanSource, node: Node, snippet: string): string {
  const [from, to] = node.range!;
  return text.slice(0, from) + snippet + text.slice(to);
}

/** The text with a field added to the section at a path, after its last one, in the section's own style. `block` is for sections with a field a line. */
export function withField(
  source: PlanSource,
  path: PlanPath,
  name: string,
  flow: string,
  block?: readonly string[],
): string {
  const parent = nodeAt(source, path);
  if (isAlias(parent)) throw repeated(path, parent.source);
  if (!isMap(parent) || parent.items.length === 0)
    throw new RangeError(`${named(path)} has no fields; write it in the file`);
  if (parent.flow) {
    const [first] = parent.items;
    const quote = isScalar(first!.key) && first!.key.type === 'QUOTE_DOUBLE' ? '"' : '';
    return insert(source.text, lastEnd(parent), `, ${quote}${name}${quote}: ${flow}`);
  }
  const { key } = parent.items[0]!;
  const lines = block ? [`${name}:`, ...block] : [`${name}: ${flow}`];
  return afterLine(source.text, lastEnd(parent), columnOf(source.text, (key as Node).range![0]), lines);
}

/** The text with an entry added at the end of a list that is there; null when there is no list at the path. */
export function withEntry(source: PlanSource, path: PlanPath, flow: string, block: readonly string[]): string | null {
  const list = nodeAt(source, path);
  if (list === null || (isScalar(list) && list.value === null)) return null;
  if (isAlias(list)) throw repeated(path, list.source);
  if (!isSeq(list)) throw new RangeError(`${named(path)} is no list`);
  if (list.flow) {
    const at = list.items.length === 0 ? list.range![0] + 1 : lastEnd(list);
    return insert(source.text, at, list.items.length === 0 ? flow : `, ${flow}`);
  }
  return afterLine(source.text, lastEnd(list), columnOf(source.text, list.range![0]), block);
}

const insert = (text: string, at: number, what: string): string => text.slice(0, at) + what + text.slice(at);

/** Where the last thing in a collection ends. */
function lastEnd(node: YAMLMap | YAMLSeq): number {
  const last = node.items.at(-1);
  const inner = isNode(last) ? last : ((last as { value?: unknown } | undefined)?.value ?? null);
  const key = (last as { key?: unknown } | undefined)?.key;
  if (isCollection(inner) && !inner.flow) return lastEnd(inner as YAMLMap);
  if (isNode(inner)) return inner.range![1];
  return isNode(key) ? key.range![1] + 1 : node.range![1];
}

const columnOf = (text: string, offset: number): number => offset - (text.lastIndexOf('\n', offset - 1) + 1);

/** The text with lines after the one that holds a place, indented by a column, with the file's own line ends. */
function afterLine(text: string, end: number, column: number, lines: readonly string[]): string {
  const from = text[end - 1] === '\n' ? end - 1 : end;
  const stop = text.indexOf('\n', from);
  const eol = text.includes('\r\n') ? '\r\n' : '\n';
  const added = lines.map((line) => ' '.repeat(column) + line).join(eol);
  return stop < 0 ? `${text}${eol}${added}${eol}` : insert(text, stop + 1, added + eol);
}
