import { type DxfTag, dxfNumber, dxfTags, quoted } from './tags.js';

/** One entity of a drawing's model space as its groups. */
export interface DxfEntityTags {
  /** LINE, LWPOLYLINE, ... */
  readonly type: string;
  readonly layer: string;
  /** `LINE 2F (line 120)`: type, handle or number in the file, and line of its beginning. */
  readonly name: string;
  readonly tags: readonly DxfTag[];
  /** The VERTEX entities of a POLYLINE. */
  readonly vertices: readonly DxfEntityTags[];
}

/** What a DXF holds, before its entities are made into lines and arcs. */
export interface DxfFile {
  /** $INSUNITS: 1 inches, 4 millimetres; null or 0 when it does not say. */
  readonly units: number | null;
  /** Layers that are switched off or frozen. */
  readonly hidden: ReadonlySet<string>;
  readonly entities: readonly DxfEntityTags[];
}

/**
 * The model space of an ASCII DXF, R12 to 2018. Throws RangeError naming the line for what is not sound: a text cut short, a
 * binary file, another format, or more than `most` entities.
 */
export function readDxfFile(text: string, most: number): DxfFile {
  refuseOthers(text);
  const next = dxfTags(text);
  const reader: Reader = { most, count: 0, units: null, hidden: new Set(), entities: [], polyline: null };
  let last = 1;
  let sections = 0;
  for (;;) {
    const tag = next();
    if (tag === null) throw new RangeError(`line ${last}: the file ends without EOF; it is cut short`);
    if (tag.code !== 0) throw new RangeError(`line ${tag.line}: expected SECTION or EOF, found ${wordsOf(tag)}`);
    if (tag.value === 'EOF') break;
    if (tag.value !== 'SECTION') {
      throw new RangeError(`line ${tag.line}: expected SECTION or EOF, found ${wordsOf(tag)}`);
    }
    sections++;
    last = readSection(next, tag, reader).line;
  }
  if (sections === 0) throw new RangeError('the DXF has no section');
  return { units: reader.units, hidden: reader.hidden, entities: reader.entities };
}

interface Reader {
  readonly most: number;
  count: number;
  units: number | null;
  readonly hidden: Set<string>;
  readonly entities: DxfEntityTags[];
  /** The POLYLINE whose vertices are being read. */
  polyline: { readonly head: readonly DxfTag[]; readonly vertices: (readonly DxfTag[])[] } | null;
}

const wordsOf = (tag: DxfTag): string => `group ${tag.code} ${quoted(tag.value)}`;

function refuseOthers(text: string): void {
  if (text.startsWith('AutoCAD Binary DXF')) {
    throw new RangeError('line 1: this is a binary DXF; save it as ASCII DXF');
  }
  if (/^AC10\d\d/.test(text)) throw new RangeError('line 1: this is a DWG; save it as ASCII DXF');
  if (text.includes('\u0000')) throw new RangeError('this is no text; a DXF is saved as ASCII DXF');
  if (text.trim() === '') throw new RangeError('the file is empty');
}

type Next = () => DxfTag | null;

/** Reads from after SECTION to its ENDSEC, which it gives back. Groups are gathered into records, each begun by a group 0. */
function readSection(next: Next, start: DxfTag, reader: Reader): DxfTag {
  const name = next();
  if (name === null || name.code !== 2) {
    throw new RangeError(`line ${start.line}: expected the section's name after SECTION`);
  }
  const section = name.value;
  let record: DxfTag[] = [];
  let last = name;
  for (;;) {
    const tag = next();
    if (tag === null) {
      throw new RangeError(`line ${last.line}: the file ends inside ${quoted(section)}; it is cut short`);
    }
    last = tag;
    if (tag.code === 0) {
      takeRecord(record, section, reader);
      if (tag.value === 'ENDSEC') break;
      if (tag.value === 'EOF' || tag.value === 'SECTION') {
        throw new RangeError(`line ${tag.line}: expected ENDSEC of ${quoted(section)} first, found ${wordsOf(tag)}`);
      }
      record = [tag];
    } else if (section === 'HEADER') readVariable(tag, next, reader);
    else if (record.length > 0 && (section === 'ENTITIES' || record[0]!.value === 'LAYER')) record.push(tag);
    else if (section === 'ENTITIES') {
      throw new RangeError(`line ${tag.line}: expected an entity, found ${wordsOf(tag)}`);
    }
  }
  if (reader.polyline !== null) throw new RangeError(`POLYLINE of line ${reader.polyline.head[0]!.line} has no SEQEND`);
  return last;
}

function takeRecord(record: readonly DxfTag[], section: string, reader: Reader): void {
  const [head] = record;
  if (head === undefined) return;
  if (section === 'TABLES' && head.value === 'LAYER') readLayer(record, reader);
  if (section !== 'ENTITIES') return;
  const { polyline } = reader;
  if (polyline === null) {
    if (head.value === 'POLYLINE') reader.polyline = { head: record, vertices: [] };
    else if (head.value !== 'ATTRIB' && head.value !== 'SEQEND') addEntity(record, [], reader);
    return;
  }
  countOne(reader, head);
  if (head.value === 'VERTEX') polyline.vertices.push(record);
  else if (head.value === 'SEQEND') {
    addEntity(polyline.head, polyline.vertices, reader);
    reader.polyline = null;
  } else throw new RangeError(`line ${head.line}: expected VERTEX or SEQEND of a POLYLINE, found ${wordsOf(head)}`);
}

function readVariable(tag: DxfTag, next: Next, reader: Reader): void {
  if (tag.code !== 9 || tag.value !== '$INSUNITS') return;
  const value = next();
  if (value === null || value.code !== 70) throw new RangeError(`line ${tag.line}: $INSUNITS has no value of group 70`);
  reader.units = dxfNumber(value);
}

/** Frozen is bit 1 of group 70, off a colour below zero. */
function readLayer(record: readonly DxfTag[], reader: Reader): void {
  const name = record.find((t) => t.code === 2)?.value;
  const flags = record.find((t) => t.code === 70);
  const colour = record.find((t) => t.code === 62);
  const frozen = flags !== undefined && (dxfNumber(flags) & 1) === 1;
  if (name !== undefined && (frozen || (colour !== undefined && dxfNumber(colour) < 0))) reader.hidden.add(name);
}

function countOne(reader: Reader, at: DxfTag): void {
  reader.count++;
  if (reader.count > reader.most) {
    throw new RangeError(`line ${at.line}: it has more than ${reader.most} entities; keep only the contours`);
  }
}

function addEntity(record: readonly DxfTag[], vertices: readonly (readonly DxfTag[])[], reader: Reader): void {
  countOne(reader, record[0]!);
  const entity = entityOf(record, reader.count);
  const inPaper = entity.tags.some((t) => t.code === 67 && t.value === '1');
  if (!inPaper) reader.entities.push({ ...entity, vertices: vertices.map((v) => entityOf(v, 0)) });
}

function entityOf(record: readonly DxfTag[], count: number): DxfEntityTags {
  const head = record[0]!;
  const tags = ownTags(record);
  const handle = tags.find((t) => t.code === 5)?.value;
  const layer = tags.find((t) => t.code === 8)?.value ?? '0';
  const which = handle === undefined ? `number ${count}` : handle;
  return { type: head.value, layer, name: `${head.value} ${which} (line ${head.line})`, tags, vertices: [] };
}

/** Groups of the entity itself: without those other programs add between 102 { and 102 } and from 1000 on. */
function ownTags(record: readonly DxfTag[]): readonly DxfTag[] {
  let inside = false;
  return record.slice(1).filter((t) => {
    if (t.code === 102) inside = t.value.startsWith('{');
    return !inside && t.code !== 102 && t.code < 1000;
  });
}
