import { isMap, isScalar, parseDocument, stringify } from 'yaml';
import { nameField } from '../fields/text-field.js';

/** A starter plan: the name people ask for it by, what it is, and the files it names. Its text is `templates/<name>.yaml`. */
export interface Starter {
  readonly name: string;
  readonly title: string;
  /** Drawings and lists of points beside it in `templates`. */
  readonly files?: readonly string[];
}

/** The starter plans, the default one first. */
export const STARTERS: readonly Starter[] = [
  { name: 'inline-four', title: 'inline four, 4-1, oval ports' },
  { name: 'inline-six-turbo', title: 'inline six, two 3-1 for a divided turbine, round ports' },
  { name: 'v-twin', title: 'vee twin, two heads, 2-1, D ports' },
  { name: 'v8-bank', title: 'one bank of a vee eight, 4-1, rectangular ports, in inches' },
  { name: 'inline-four-421', title: 'inline four, 4-2-1, round ports' },
  { name: 'inline-four-stepped', title: 'inline four, 4-1, stepped primaries, plugs and ground' },
  { name: 'inline-five', title: 'inline five, 5-1, the length from a band' },
  { name: 'inline-six', title: 'inline six, 6-1, oval ports' },
  { name: 'v6-twin', title: 'vee six, two heads, two 3-1 with some freedom' },
  { name: 'v8-full', title: 'vee eight, two heads, two 4-1, rectangular ports, in inches' },
  { name: 'single', title: 'single, one round port, step to the outlet' },
  {
    name: 'traced-gasket',
    title: 'inline three, 3-1, ports and bolts traced from a DXF',
    files: ['traced-gasket.dxf'],
  },
];

/**
 * The text of a starter plan with its name changed; comments and layout stay. Throws RangeError with the reason when a plan cannot
 * bear the name, or when the text has no name to change.
 */
export function renameStarter(text: string, name: string): string {
  const sound = nameField('', 'street four').safeParse(name);
  if (!sound.success) throw new RangeError(sound.error.issues[0]!.message);
  const { contents } = parseDocument(text);
  const node = isMap(contents) ? contents.get('name', true) : undefined;
  if (!isScalar(node) || !node.range) throw new RangeError('the starter plan has no name to change');
  const [from, to] = node.range;
  return text.slice(0, from) + stringify(name, { lineWidth: 0 }).trimEnd() + text.slice(to);
}
