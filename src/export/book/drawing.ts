import type { OutputFile } from '../output-file.js';
import { type Html, html } from './html.js';

/** A drawing that was written as SVG, as a page takes it in. */
export interface Drawing {
  readonly path: string;
  /** From its own title; its path where it has none. */
  readonly title: string;
  /** Size, mm for drawings in mm, else in its own units. */
  readonly width: number;
  readonly height: number;
  readonly text: string;
}

/** Reads the head of one of our own SVG files. Throws RangeError for what has no size. */
export function drawingOf({ path, bytes }: OutputFile): Drawing {
  const text = new TextDecoder().decode(bytes);
  const size = /^<svg [^>]*\bviewBox="[-\d.]+ [-\d.]+ ([\d.]+) ([\d.]+)"/.exec(text);
  if (size === null) throw new RangeError(`${path} has no size`);
  const title = /<title>([^<]*)<\/title>/.exec(text)?.[1];
  return {
    path,
    title: title === undefined ? path : plainText(title),
    width: Number(size[1]),
    height: Number(size[2]),
    text,
  };
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': "'",
  '&amp;': '&',
};

const plainText = (xml: string): string => xml.replace(/&(?:lt|gt|quot|#39|amp);/g, (e) => ENTITIES[e]!);

/** An SVG as the address of a picture: its styles stay its own, and no script in it ever runs. */
export const pictureAddress = (svg: string): string =>
  `data:image/svg+xml;base64,${Buffer.from(svg, 'utf8').toString('base64')}`;

/** How wide drawings stand on the screen, px, and the px of a millimetre at least and at most: words stay readable, small plates small. */
const ORDINARY = 620;
const SMALLEST = 1.9;
const LARGEST = 3.2;

/** A drawing on white paper in its own box, with a caption that leads to the file beside the book. */
export function drawingFigure(drawing: Drawing, alt: string, words: readonly Html[] = []): Html {
  const { path, title, width, height, text } = drawing;
  const across = Math.round(width * Math.min(LARGEST, Math.max(SMALLEST, ORDINARY / width)));
  return html`<figure class="drawing"><div class="scroll paper" role="group" aria-label="${title}" tabindex="0"><img src="${pictureAddress(text)}" alt="${alt}" width="${across}" height="${Math.round((across * height) / width)}" style="width:${across}px"></div>
<figcaption>${title}. File beside this book: ${fileLink(path)}${words.map((w) => html` ${w}`)}</figcaption></figure>
`;
}

/** A link to a file of the same build. */
export const fileLink = (path: string): Html =>
  html`<a href="${path.split('/').map(encodeURIComponent).join('/')}">${path}</a>`;
