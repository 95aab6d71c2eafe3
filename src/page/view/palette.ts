import type { SceneKind } from '../../export/book/scene-data.js';

/** How a tube is told apart without its colour: lines drawn on its skin. */
export type Pattern = 'plain' | 'rings' | 'spiral' | 'stripes';

export const PATTERNS: readonly Pattern[] = ['plain', 'rings', 'spiral', 'stripes'];

/** Colours of tubes: each stands out from a light and a dark ground, neighbours differ in lightness for any eye. */
export const TUBE_COLOURS = [
  '#2f6fd0',
  '#c9700a',
  '#0f7f73',
  '#c2559f',
  '#77781a',
  '#7a5fd0',
  '#c24b36',
  '#3f8fb4',
] as const;

/** How the tube at a place of the list is marked: colours repeat after eight, patterns after four. */
export const markOf = (index: number): { readonly colour: string; readonly pattern: Pattern } => ({
  colour: TUBE_COLOURS[index % TUBE_COLOURS.length]!,
  pattern: PATTERNS[(index + Math.floor(index / TUBE_COLOURS.length)) % PATTERNS.length]!,
});

/** What can be hidden and shown: kinds of solids, the tubes and the labels. */
export type ShownKind = SceneKind | 'tube' | 'label';

interface KindLook {
  readonly kind: ShownKind;
  readonly title: string;
  /** Shown when a scene is first mounted. */
  readonly shown: boolean;
  readonly light: string;
  readonly dark: string;
  readonly opacity: number;
  /** Creases drawn as lines. */
  readonly edges: boolean;
}

/** Kinds in the order they are listed. */
export const KINDS: readonly KindLook[] = [
  { kind: 'tube', title: 'Tubes', shown: true, light: '', dark: '', opacity: 1, edges: false },
  { kind: 'label', title: 'Labels', shown: true, light: '', dark: '', opacity: 1, edges: false },
  { kind: 'flange', title: 'Flange', shown: true, light: '#b9c0c6', dark: '#8b949c', opacity: 1, edges: true },
  { kind: 'collector', title: 'Collector', shown: true, light: '#a9b1b9', dark: '#7c868f', opacity: 1, edges: true },
  { kind: 'plate', title: 'Plates', shown: true, light: '#c2b9a6', dark: '#968d7b', opacity: 1, edges: true },
  { kind: 'head', title: 'Head', shown: true, light: '#dcdad3', dark: '#4a5056', opacity: 1, edges: true },
  { kind: 'port', title: 'Ports', shown: true, light: '#5b6167', dark: '#cfd4d8', opacity: 1, edges: true },
  { kind: 'keep-out', title: 'Keep-outs', shown: true, light: '#9a6b4f', dark: '#c79a7c', opacity: 0.3, edges: true },
  {
    kind: 'access',
    title: 'Plug and bolt access',
    shown: false,
    light: '#4f7f9a',
    dark: '#7fb0cb',
    opacity: 0.35,
    edges: true,
  },
  { kind: 'scan', title: 'Scans', shown: true, light: '#c9c3b4', dark: '#6b675d', opacity: 1, edges: false },
  { kind: 'jig', title: 'Printed mock-up', shown: false, light: '#e3d9b8', dark: '#b3a87f', opacity: 1, edges: false },
  { kind: 'bench-jig', title: 'Bench jigs', shown: false, light: '#c4d6c2', dark: '#87a085', opacity: 1, edges: false },
];

export const lookOf = (kind: ShownKind): KindLook => KINDS.find((k) => k.kind === kind)!;
