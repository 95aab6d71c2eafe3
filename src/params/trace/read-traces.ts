import type { PlanFault, PlanPath } from '../faults/plan-problem.js';
import { printable } from '../faults/wording.js';
import type { HeadSection, PlanSections, PortSection } from '../resolve/sections.js';
import type { ReadFile } from '../scans.js';
import type { PlanFile } from '../schema/plan-file.js';
import type { LengthUnit } from '../units.js';
import { tracedHead } from './head-trace.js';
import { tracedPort } from './port-trace.js';
import { faultOfError } from './trace-fault.js';
import { contourReader, type ReadContours } from './trace-file.js';

/** The sections of a plan with the ports and bolts of the files it names, what is wrong with those, and what is to be said of them. */
export interface Traces {
  readonly sections: Partial<PlanSections>;
  readonly faults: readonly PlanFault[];
  readonly notes: readonly string[];
}

type HeadFile = NonNullable<PlanFile['head']>;

interface Reading {
  readonly read: ReadContours;
  readonly unit: LengthUnit;
  readonly faults: PlanFault[];
  readonly notes: string[];
}

/** Reads every trace of a plan; a file that stands in it twice is read once. A head with a fault in a trace is left out. Never throws. */
export function readTraces(sections: Partial<PlanFile>, readFile: ReadFile | undefined): Traces {
  const { head, heads, ...others } = sections;
  const reading: Reading = { read: contourReader(readFile), unit: sections.units ?? 'mm', faults: [], notes: [] };
  const one = head === undefined ? undefined : headOf(head, ['head'], reading);
  const several = heads?.map((h, i) => {
    const read = headOf(h, ['heads', i], reading);
    return read === null ? null : { ...h, ...read };
  });
  const sound = several?.flatMap((h) => (h === null ? [] : [h]));
  return {
    sections: {
      ...others,
      ...(one ? { head: one } : {}),
      ...(sound !== undefined && sound.length === several?.length ? { heads: sound } : {}),
    },
    faults: reading.faults,
    notes: [...new Set(reading.notes.map(printable))],
  };
}

/** Null where a file it names is at fault. */
function headOf(head: HeadFile, path: PlanPath, reading: Reading): HeadSection | null {
  const { ports, bolts = [], trace, ...others } = head;
  if (trace !== undefined) {
    const found = tried(trace.file, [...path, 'trace'], reading, () => tracedHead(trace, reading.read, reading.unit));
    if (found === null) return null;
    reading.notes.push(...found.notes);
    return { ...others, ports: found.ports, bolts: [...bolts, ...found.bolts] };
  }
  const read = (ports ?? []).map((port, i) => portOf(port, [...path, 'ports', i, 'shape'], reading));
  const sound = read.flatMap((p) => (p === null ? [] : [p]));
  return sound.length === read.length ? { ...others, ports: sound, bolts } : null;
}

function portOf(port: NonNullable<HeadFile['ports']>[number], path: PlanPath, reading: Reading): PortSection | null {
  const { shape } = port;
  if (!('trace' in shape)) return { ...port, shape };
  const { trace } = shape;
  const found = tried(trace.file, path, reading, () => tracedPort(trace, reading.read, reading.unit));
  if (found === null) return null;
  reading.notes.push(...found.notes.map((note) => `port of cylinder ${port.cylinder}: ${note}`));
  return { ...port, shape: found.shape };
}

function tried<T>(file: string, path: PlanPath, { faults }: Reading, read: () => T): T | null {
  try {
    return read();
  } catch (error) {
    const { field, message } = faultOfError(error, file);
    faults.push({ path: [...path, field], message });
    return null;
  }
}

/** The fault of a rule at the trace that gave the port or bolt it is about, where the plan does not list that itself. */
export function atTrace(fault: PlanFault, sections: Partial<PlanFile>): PlanFault {
  const inHeads = fault.path[0] === 'heads';
  const base = fault.path.slice(0, inHeads ? 2 : 1);
  const [list, entry] = fault.path.slice(base.length);
  const head = inHeads ? sections.heads?.[Number(base[1])] : sections.head;
  if (head?.trace === undefined || (list !== 'ports' && list !== 'bolts')) return fault;
  if (Number(entry) < (head[list]?.length ?? 0)) return fault;
  return {
    ...fault,
    path: [...base, 'trace', 'file'],
    message: `${list.slice(0, -1)} ${Number(entry) + 1}: ${fault.message}`,
  };
}
