import { xmlText } from '../xml-text.js';
import type { Drawing } from './drawing.js';

/** A page of a pattern at 1:1, mm: it fits the white of A4 and of Letter with 12 mm round it. */
export const TILE = { width: 186, height: 248 } as const;

/** Foot of every tile: the square to check and what to do, mm. */
const FOOT = 58;
/** Side of the square, mm. */
export const SQUARE = 50;
/** Neighbours show the same strip of this width, mm. */
const OVERLAP = 10;
const WINDOW = [TILE.width - 2, TILE.height - FOOT - 12] as const;

/** One page of a pattern. */
export interface PatternTile {
  /** Row by letter, column by number: 'A1'. */
  readonly name: string;
  readonly svg: string;
}

/** A pattern's drawing at 1:1 on as many pages as it takes, turned where that takes fewer, with a square to measure on each. */
export function patternTiles(drawing: Drawing, stamp: string): PatternTile[] {
  const { width, height } = drawing;
  const turned = count([height, width]) < count([width, height]);
  const size = turned ? ([height, width] as const) : ([width, height] as const);
  const [columns, rows] = [steps(size[0], WINDOW[0]), steps(size[1], WINDOW[1])];
  return Array.from({ length: columns * rows }, (_, i) => {
    const [row, column] = [Math.floor(i / columns), i % columns];
    const name = `${String.fromCharCode(65 + row)}${column + 1}`;
    const from = [column * (WINDOW[0] - OVERLAP), row * (WINDOW[1] - OVERLAP)] as const;
    const title = `${drawing.title}: page ${name} of ${columns} x ${rows}, ${stamp}`;
    return { name, svg: tileSvg(drawing, turned, from, title, columns * rows > 1) };
  });
}

const steps = (size: number, window: number): number =>
  Math.max(1, Math.ceil((size - OVERLAP) / (window - OVERLAP) - 1e-9));

const count = ([w, h]: readonly [number, number]): number => steps(w, WINDOW[0]) * steps(h, WINDOW[1]);

function tileSvg(
  { text, width, height }: Drawing,
  turned: boolean,
  [x, y]: readonly [number, number],
  title: string,
  joined: boolean,
): string {
  const inner = text.replace(/^<svg /, `<svg x="0" y="0" `);
  const turn = turned ? `<g transform="translate(${height} 0) rotate(90)">${inner}</g>` : inner;
  const [w, h] = turned ? [height, width] : [width, height];
  const [shownWide, shownHigh] = [Math.min(WINDOW[0], w - x), Math.min(WINDOW[1], h - y)];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${TILE.width}mm" height="${TILE.height}mm" viewBox="0 0 ${TILE.width} ${TILE.height}">`,
    `<text x="1" y="6" style="font:bold 3.8px sans-serif;fill:#000">${xmlText(title)}</text>`,
    `<svg x="1" y="10" width="${shownWide}" height="${shownHigh}" viewBox="${x} ${y} ${shownWide} ${shownHigh}" overflow="hidden">${inMillimetres(turn)}</svg>`,
    joined ? joints(x, y, w, h) : '',
    foot(joined),
    '</svg>',
  ].join('\n');
}

/** Within a drawing whose unit is the millimetre, sizes lose their unit: there `mm` would be counted in points of the screen. */
const inMillimetres = (svg: string): string =>
  svg.replace(/(<svg [^>]*?width="[\d.]+)mm(" height="[\d.]+)mm"/, '$1$2"');

/** Dashed lines where the next page is laid over this one. */
function joints(x: number, y: number, w: number, h: number): string {
  const middle = OVERLAP / 2;
  const [right, bottom] = [x + WINDOW[0] < w - 1e-9, y + WINDOW[1] < h - 1e-9];
  const line = (d: string): string =>
    `<path d="${d}" fill="none" stroke="#555" stroke-width=".2" stroke-dasharray="4 2"/>`;
  return [
    x > 0 ? line(`M${1 + middle} 10v${WINDOW[1]}`) : '',
    right ? line(`M${1 + WINDOW[0] - middle} 10v${WINDOW[1]}`) : '',
    y > 0 ? line(`M1 ${10 + middle}h${WINDOW[0]}`) : '',
    bottom ? line(`M1 ${10 + WINDOW[1] - middle}h${WINDOW[0]}`) : '',
  ].join('');
}

function foot(joined: boolean): string {
  const top = TILE.height - SQUARE - 2;
  const words = [
    `This square must measure ${SQUARE} x ${SQUARE} mm.`,
    'Print at 100 % (actual size), never fitted to the page;',
    'measure with a steel rule both ways before you cut.',
    ...(joined ? ['Lay the dashed lines of neighbouring pages on each other.'] : []),
    'Try the pattern on a scrap first. Cut metal has sharp edges.',
  ];
  return [
    `<rect x="2" y="${top}" width="${SQUARE}" height="${SQUARE}" fill="none" stroke="#000" stroke-width=".2"/>`,
    ...words.map(
      (w, i) =>
        `<text x="${SQUARE + 8}" y="${top + 8 + 7 * i}" style="font:${i === 0 ? 'bold ' : ''}4px sans-serif;fill:#000">${xmlText(w)}</text>`,
    ),
  ].join('');
}
