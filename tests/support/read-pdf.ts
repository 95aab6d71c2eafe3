import { spawnSync } from 'node:child_process';

/** A page as poppler draws it: grey values row by row from the top, 0 black. */
export interface PageImage {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8Array;
}

/** The dots of a millimetre that pages are drawn at: 254 dots an inch. */
export const DOTS = 10;

/** Every page of a PDF at 10 dots a millimetre. Throws Error with what the reader says when it cannot. */
export function drawPdf(pdftoppm: string, bytes: Uint8Array): PageImage[] {
  const run = spawnSync(pdftoppm, ['-r', String(25.4 * DOTS), '-gray', '-'], { input: bytes, maxBuffer: 1 << 30 });
  if (run.status !== 0) throw new Error(`the print could not be drawn: ${run.stderr.toString()}`);
  return pagesOf(run.stdout);
}

/** Pages one behind the other as portable grey maps (P5). */
function pagesOf(data: Buffer): PageImage[] {
  const pages: PageImage[] = [];
  for (let at = 0; at < data.length; ) {
    const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(data.subarray(at, at + 40).toString('latin1'))!;
    const [width, height] = [Number(head[1]), Number(head[2])];
    const from = at + head[0].length;
    at = from + width * height;
    pages.push({ width, height, grey: data.subarray(from, at) });
  }
  return pages;
}

/** Text of every page. */
export function wordsOfPdf(pdftotext: string, bytes: Uint8Array): string[] {
  const run = spawnSync(pdftotext, ['-layout', '-', '-'], { input: bytes, encoding: 'utf8' });
  if (run.status !== 0) throw new Error(`the print could not be read: ${run.stderr}`);
  return run.stdout.split('\f').slice(0, -1);
}

/** Longest unbroken dark run along a band of rows or columns, mm: `band` in mm from the page's edge. */
export function longestRun(page: PageImage, along: 'x' | 'y', band: readonly [number, number]): number {
  const length = along === 'x' ? page.width : page.height;
  const dark = (i: number, j: number): boolean =>
    page.grey[along === 'x' ? j * page.width + i : i * page.width + j]! < 160;
  let most = 0;
  for (let j = Math.round(band[0] * DOTS); j < band[1] * DOTS; j++) {
    let run = 0;
    for (let i = 0; i < length; i++) {
      run = dark(i, j) ? run + 1 : 0;
      most = Math.max(most, run);
    }
  }
  return most / DOTS;
}

/** A word as the reader finds it, points from the page's upper left corner. */
export interface WordBox {
  readonly word: string;
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

/** A page with its words. */
export interface PageWords {
  /** Points. */
  readonly size: readonly [number, number];
  readonly words: readonly WordBox[];
}

/** The boxes of all words of every page. */
export function wordBoxesOfPdf(pdftotext: string, bytes: Uint8Array): PageWords[] {
  const run = spawnSync(pdftotext, ['-bbox-layout', '-', '-'], { input: bytes, encoding: 'utf8', maxBuffer: 1 << 30 });
  if (run.status !== 0) throw new Error(`the print could not be read: ${run.stderr}`);
  const number = '"([-\\d.]+)"';
  const word = new RegExp(`<word xMin=${number} yMin=${number} xMax=${number} yMax=${number}>(.*?)</word>`, 'g');
  return run.stdout
    .split('<page ')
    .slice(1)
    .map((page) => {
      const [, width, height] = new RegExp(`^width=${number} height=${number}`).exec(page)!;
      const words = [...page.matchAll(word)].map(([, x, y, u, v, text]): WordBox => {
        return { word: text!, from: [Number(x), Number(y)], to: [Number(u), Number(v)] };
      });
      return { size: [Number(width), Number(height)], words };
    });
}

/** Words that lie on each other or reach beyond the page, in words; a fifth of a point is rounding. */
export function clashesOf({ size, words }: PageWords): string[] {
  const near = 0.2;
  const out = words.filter((w) => w.from[0] < 0 || w.from[1] < 0 || w.to[0] > size[0] || w.to[1] > size[1]);
  const on = words.flatMap((a, i) =>
    words.slice(0, i).flatMap((b) => {
      const both = [0, 1].every((k) => a.from[k]! + near < b.to[k]! - near && b.from[k]! + near < a.to[k]! - near);
      return both ? [`'${a.word}' lies on '${b.word}' at ${a.from.join(', ')}`] : [];
    }),
  );
  return [...out.map((w) => `'${w.word}' is out of the page`), ...on];
}
