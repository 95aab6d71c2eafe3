import {
  type Document,
  isAlias,
  isMap,
  isNode,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type ParsedNode,
  parseDocument,
  visit,
} from 'yaml';
import type { PlanFault, PlanPath, PlanProblem } from '../faults/plan-problem.js';
import { printable } from '../faults/wording.js';
import { LARGEST_PLAN_FILE, MOST_ALIASES } from '../limits.js';
import { tooDeepLine } from './nesting.js';

/** A plan's text as plain data, and where each of its fields stands. */
export interface PlanText {
  readonly value: unknown;
  readonly problemAt: (fault: PlanFault) => PlanProblem;
}

type PlanDocument = Document.Parsed<ParsedNode>;

/** Keys no plan has and that are special to the language or the format. */
const FORBIDDEN_KEYS = new Set(['__proto__', 'constructor', 'prototype', '<<']);

/** How a plan's text is parsed. */
export const PLAN_YAML = {
  version: '1.2',
  schema: 'core',
  prettyErrors: false,
  stringKeys: true,
  resolveKnownTags: false,
  uniqueKeys: false,
} as const;

/** What a text is to be, in the words of its faults. */
export interface TextKind {
  /** 'a plan', 'an as-built file'. */
  readonly name: string;
  /** What one file of it holds. */
  readonly holds: string;
}

const PLAN: TextKind = { name: 'a plan', holds: 'a plan file holds one plan' };

/**
 * Reads YAML, or JSON, which is YAML too; `kind` is what faults call it. Never throws: what is wrong comes back as problems with
 * their lines.
 */
export function readPlanText(text: string, kind: TextKind = PLAN): PlanText | readonly PlanProblem[] {
  const bytes = new TextEncoder().encode(text).length;
  if (bytes > LARGEST_PLAN_FILE) {
    return [fileProblem(`expected ${kind.name} of at most ${LARGEST_PLAN_FILE} bytes, found ${bytes}`)];
  }
  const deep = tooDeepLine(text);
  if (deep !== null) return [{ ...fileProblem(`the file is nested deeper than ${kind.name} ever is`), line: deep }];
  const lines = new LineCounter();
  try {
    const document = parseDocument(text, { ...PLAN_YAML, lineCounter: lines });
    const problems = [...syntaxProblems(document, lines, kind), ...shapeProblems(document, lines, kind)];
    if (problems.length > 0) return problems;
    const value: unknown = document.toJS({ maxAliasCount: MOST_ALIASES });
    return { value, problemAt: (fault) => problemAt(document, lines, fault) };
  } catch (error) {
    return [fileProblem(`the file cannot be read: ${(error as Error).message}`)];
  }
}

const fileProblem = (message: string): PlanProblem => ({ line: 1, column: 1, path: '', message });

function problemAtOffset(lines: LineCounter, offset: number, message: string, path = ''): PlanProblem {
  const { line, col } = lines.linePos(offset);
  return { line: Math.max(line, 1), column: Math.max(col, 1), path: printable(path), message: printable(message) };
}

function syntaxProblems(document: PlanDocument, lines: LineCounter, kind: TextKind): PlanProblem[] {
  return [...document.errors, ...document.warnings].map((e) => {
    const message = SYNTAX_WORDS[e.code]?.(kind) ?? `this is not YAML: ${e.message}`;
    return problemAtOffset(lines, e.pos[0], message);
  });
}

const SYNTAX_WORDS: Readonly<Record<string, (kind: TextKind) => string>> = {
  MULTIPLE_DOCS: ({ holds }) => `a second document starts here; ${holds}`,
  TAG_RESOLVE_FAILED: ({ name }) => `${name} has no tags (!name); leave it out`,
  TAB_AS_INDENT: () => 'a tab indents this line; use spaces',
};

/**
 * What the parser allows and a plan does not: other versions, fields given twice (the parser's own check is quadratic), special
 * keys, anchors that hold themselves, aliases without end.
 */
function shapeProblems(document: PlanDocument, lines: LineCounter, { name: what }: TextKind): PlanProblem[] {
  if (document.directives?.yaml.version !== '1.2') {
    return [fileProblem(`${what} is YAML 1.2; leave the %YAML line out`)];
  }
  const problems: PlanProblem[] = [];
  let aliases = 0;
  visit(document, {
    Map(_, map) {
      const seen = new Set<string>();
      for (const { key } of map.items) {
        const name = isScalar(key) ? String(key.value) : '';
        if (seen.has(name)) {
          const message = `${JSON.stringify(name)} is given twice in the same section; keep one`;
          problems.push(problemAtOffset(lines, offsetOf(key), message));
        }
        seen.add(name);
      }
    },
    Pair(_, pair) {
      if (!isScalar(pair.key) || !FORBIDDEN_KEYS.has(String(pair.key.value))) return;
      const message = `${what} cannot have a field named ${JSON.stringify(pair.key.value)}`;
      problems.push(problemAtOffset(lines, offsetOf(pair.key), message));
    },
    Alias(_, alias, ancestors) {
      if (++aliases > MOST_ALIASES) {
        problems.push(problemAtOffset(lines, offsetOf(alias), `expected at most ${MOST_ALIASES} aliases (*name)`));
        return visit.BREAK;
      }
      const source = alias.resolve(document);
      if (source === undefined) {
        problems.push(
          problemAtOffset(lines, offsetOf(alias), `*${alias.source} repeats &${alias.source}, which is not there`),
        );
      } else if (ancestors.includes(source)) {
        problems.push(problemAtOffset(lines, offsetOf(alias), `*${alias.source} stands inside itself`));
      }
      return undefined;
    },
  });
  return problems;
}

const offsetOf = (node: unknown): number => (isNode(node) ? (node.range?.[0] ?? 0) : 0);

/** The place of a fault: its value, or its name, or for a missing field the section that should hold it. */
function problemAt(document: PlanDocument, lines: LineCounter, fault: PlanFault): PlanProblem {
  return problemAtOffset(
    lines,
    offsetAlong(document, fault.path, fault.atKey === true),
    fault.message,
    fault.path.join('.'),
  );
}

function offsetAlong(document: PlanDocument, path: PlanPath, atKey: boolean): number {
  let node: Node | null | undefined = document.contents;
  let heading = document.contents === null ? 0 : offsetOf(document.contents);
  for (const step of path) {
    if (isAlias(node)) node = node.resolve(document);
    const found = childOf(node, step);
    if (found === null) return heading;
    heading = found.heading;
    node = found.node;
  }
  return atKey || !isNode(node) || path.length === 0 ? heading : offsetOf(node);
}

/** A field's or entry's node, and where it begins: at its name, or for list entries at its value. */
function childOf(
  parent: unknown,
  step: string | number,
): { readonly node: Node | null; readonly heading: number } | null {
  if (isMap(parent)) {
    const pair = parent.items.find((p) => isScalar(p.key) && String(p.key.value) === String(step));
    return pair === undefined ? null : { node: isNode(pair.value) ? pair.value : null, heading: offsetOf(pair.key) };
  }
  if (isSeq(parent) && typeof step === 'number') {
    const item = parent.items[step];
    return isNode(item) ? { node: item, heading: offsetOf(item) } : null;
  }
  return null;
}
