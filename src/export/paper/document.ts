import PDFDocument from 'pdfkit';
import type { Vec2 } from '../../geometry/vec2.js';
import { asciiWords } from '../dxf/dxf.js';

export type Doc = InstanceType<typeof PDFDocument>;

/** Points of a millimetre. */
const POINT = 72 / 25.4;

/** A file of today is the file of tomorrow: no clock. */
const NO_DATE = new Date(0);

/** A document to print, without pages yet. Left uncompressed: the same bytes whichever library compresses. */
export const paperDocument = (title: string): Doc =>
  new PDFDocument({
    margin: 0,
    compress: false,
    autoFirstPage: false,
    bufferPages: true,
    info: {
      Title: asciiWords(title),
      Creator: 'evenrun',
      Producer: 'evenrun',
      CreationDate: NO_DATE,
      ModDate: NO_DATE,
    },
  });

/** A further page of a size in mm, drawn on in mm with y down the page. */
export function addPage(doc: Doc, [width, height]: Vec2, draw: () => void): void {
  doc.addPage({ size: [width * POINT, height * POINT], margin: 0 });
  inMillimetres(doc, draw);
}

/** Draws on a page made earlier, by its place from 0. */
export function onPageAgain(doc: Doc, page: number, draw: () => void): void {
  doc.switchToPage(page);
  inMillimetres(doc, draw);
}

function inMillimetres(doc: Doc, draw: () => void): void {
  doc.save().scale(POINT);
  draw();
  doc.restore();
}

/** All that was written: the library holds it in memory once the document has ended. */
export function endedBytes(doc: Doc): Uint8Array {
  doc.end();
  const chunks: Uint8Array[] = [];
  for (let chunk = doc.read() as Uint8Array | null; chunk !== null; chunk = doc.read() as Uint8Array | null) {
    chunks.push(chunk);
  }
  return new Uint8Array(Buffer.concat(chunks));
}
