import type { Vec2 } from '../../geometry/vec2.js';
import { textLines } from '../text-lines.js';
import { xmlText } from '../xml-text.js';

/** A page of a pattern at 1:1, mm: it fits the white of A4 and of Letter with 10 mm round it. */
export const TILE = { width: 190, height: 258 } as const;

/** Side of the square to measure, mm. */
export const SQUARE = 50;

/** Title above and foot below what a page shows, mm. */
const HEAD = 10;
const FOOT = SQUARE + 8;

/** Neighbours show the same strip of this width, mm. */
const OVERLAP = 10;

/** White kept round the pattern, mm. */
const PAD = 3;

const WINDOW: Vec2 = [TILE.width - 2, TILE.height - HEAD - FOOT];

/** A pattern as it was drawn, and what is said of it on every page. */
export interface PatternPicture {
  readonly title: string;
  readonly words: readonly string[];
  /** The drawing, whose unit is the millimetre with y down the page. */
  readonly svg: string;
  /** Corners of the pattern itself within the drawing, mm: least x and y, most x and y. */
  readonly from: Vec2;
  readonly to: Vec2;
  /** Which plan it belongs to. */
  readonly stamp: string;
}

/** One page of a pattern. */
export interface PatternTile {
  /** Row by letter, column by number: 'A1'. */
  readonly name: string;
  readonly svg: string;
}

interface Lying {
  readonly turned: boolean;
  /** Of the pattern with its white, as it lies on the pages. */
  readonly size: Vec2;
  readonly columns: number;
  readonly rows: number;
}

/** A pattern at 1:1 on as many pages as it takes, turned where that takes fewer, with a square to measure on each. */
export function patternTiles(picture: PatternPicture): PatternTile[] {
  const { from, to } = picture;
  const [w, h] = [to[0] - from[0] + 2 * PAD, to[1] - from[1] + 2 * PAD];
  const [upright, turned] = [lying([w, h], false), lying([h, w], true)];
  const laid = turned.columns * turned.rows < upright.columns * upright.rows ? turned : upright;
  return Array.from({ length: laid.columns * laid.rows }, (_, i) => {
    const [row, column] = [Math.floor(i / laid.columns), i % laid.columns];
    return { name: tileName(row, column), svg: tileSvg(picture, laid, row, column) };
  });
}

const lying = (size: Vec2, turned: boolean): Lying => {
  const steps = (k: 0 | 1): number => Math.max(1, Math.ceil((size[k] - OVERLAP) / (WINDOW[k] - OVERLAP) - 1e-9));
  return { turned, size, columns: steps(0), rows: steps(1) };
};

const tileName = (row: number, column: number): string => `${String.fromCharCode(65 + row)}${column + 1}`;

const n = (value: number): number => Math.round(value * 1e4) / 1e4;

function tileSvg(picture: PatternPicture, laid: Lying, row: number, column: number): string {
  const { svg, from, title, stamp } = picture;
  const { turned, size, columns, rows } = laid;
  const at: Vec2 = [column * (WINDOW[0] - OVERLAP), row * (WINDOW[1] - OVERLAP)];
  const shown = [0, 1].map((k) => Math.min(WINDOW[k as 0 | 1], size[k as 0 | 1] - at[k as 0 | 1]));
  const origin: Vec2 = [from[0] - PAD, from[1] - PAD];
  const shift = `translate(${n(-origin[0])} ${n(-origin[1])})`;
  const place = turned ? `translate(${n(size[0])} 0) rotate(90) ${shift}` : shift;
  const page = columns * rows > 1 ? `, page ${tileName(row, column)} of ${columns} x ${rows}` : '';
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${TILE.width}mm" height="${TILE.height}mm" viewBox="0 0 ${TILE.width} ${TILE.height}">`,
    words(1, 5, `${title}${page}; ${stamp}`, 3.6, true),
    `<svg x="1" y="${HEAD}" width="${n(shown[0]!)}" height="${n(shown[1]!)}" viewBox="${n(at[0])} ${n(at[1])} ${n(shown[0]!)} ${n(shown[1]!)}" overflow="hidden"><g transform="${place}">${withoutFrame(svg)}</g></svg>`,
    seams(at, laid),
    foot(picture.words, columns * rows > 1),
    '</svg>',
  ].join('\n');
}

/** What a drawing holds, without its own window and title. */
const withoutFrame = (svg: string): string =>
  svg.replace(/^<svg [^>]*>\s*(<title>[^<]*<\/title>)?/, '').replace(/<\/svg>\s*$/, '');

/** Dashed lines where the neighbouring page is laid over this one. */
function seams([x, y]: Vec2, { size }: Lying): string {
  const middle = OVERLAP / 2;
  const line = (d: string): string =>
    `<path d="${d}" fill="none" stroke="#555" stroke-width=".2" stroke-dasharray="4 2"/>`;
  const upright = (at: number): string => line(`M${1 + at} ${HEAD}v${WINDOW[1]}`);
  const level = (at: number): string => line(`M1 ${HEAD + at}h${WINDOW[0]}`);
  return [
    x > 0 ? upright(middle) : '',
    x + WINDOW[0] < size[0] - 1e-9 ? upright(WINDOW[0] - middle) : '',
    y > 0 ? level(middle) : '',
    y + WINDOW[1] < size[1] - 1e-9 ? level(WINDOW[1] - middle) : '',
  ].join('');
}

const CHECK = [
  `This square must measure ${SQUARE} x ${SQUARE} mm: print at 100 % (actual size), never fitted to`,
  'the page, and measure with a steel rule both ways before you cut.',
];

/** The square and what is said beside it. */
function foot(said: readonly string[], joined: boolean): string {
  const top = TILE.height - SQUARE - 2;
  const join = joined ? ['Lay the dashed lines of neighbouring pages on each other.'] : [];
  const rows = [...CHECK, ...join, ...said.flatMap((sentence) => textLines(sentence, ROW))].slice(0, 14);
  return [
    `<rect x="2" y="${top}" width="${SQUARE}" height="${SQUARE}" fill="none" stroke="#000" stroke-width=".2"/>`,
    ...rows.map((row, i) => words(SQUARE + 7, top + 3 + 3.7 * i, row, 2.9, i < CHECK.length)),
  ].join('');
}

/** Letters of a row in the foot. */
const ROW = 88;

const words = (x: number, y: number, text: string, size: number, bold: boolean): string =>
  `<text x="${n(x)}" y="${n(y)}" style="font:${bold ? 'bold ' : ''}${size}px sans-serif;fill:#000">${xmlText(text)}</text>`;
