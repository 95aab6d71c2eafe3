import { beforeAll, expect, test } from 'vitest';
import type { SheetInput } from '../../../src/export/sheets/sheet-input.js';
import { shopSheets } from '../../../src/export/sheets/shop-sheets.js';
import { inletTube } from '../../../src/params/collector/inlet-tube.js';
import { collectorOf } from '../../../src/parts/collector/collector.js';
import { clashesOf, type PageWords, wordBoxesOfPdf } from '../../support/read-pdf.js';
import { sheetInputOf } from '../../support/sheet-input.js';
import { routedStarter } from '../../support/starter.js';
import { requireTool } from '../../support/tools.js';

const THROAT = { bore: 46, length: 33, diffuserLength: 107 };

let input: SheetInput;
beforeAll(() => {
  const plain = sheetInputOf(routedStarter('inline-four'));
  const { plan } = plain;
  const own = plan.collectors[0]!;
  const venturi = { ...own, outlet: { ...own.outlet, throat: THROAT } };
  const collector = collectorOf(venturi, inletTube(plan, venturi), plan.jig.bed);
  input = { ...plain, collectors: [{ ...collector, notes: ['a note of the collector'] }] };
});

const lineOf = ({ words }: PageWords): string => words.map((w) => w.word).join(' ');

test('a venturi collector is drawn with its throat and diffuser: the lengths along it add up to the whole', (context) => {
  const pages = wordBoxesOfPdf(requireTool('pdftotext', context), shopSheets(input).bytes);
  const own = pages.filter((p) => lineOf(p).startsWith('Collector:'));
  const { geometry: g } = input.collectors[0]!;
  const line = lineOf(own[0]!);
  const along = [g.mergeLength, g.coneLength, THROAT.length, THROAT.diffuserLength, g.tail];
  const shown = along.map((l) => `${l.toFixed(1)} mm`);
  for (const page of own) expect(clashesOf(page)).toEqual([]);
  for (const words of shown) expect(line).toContain(words);
  expect(along.reduce((a, b) => a + b, 0)).toBeCloseTo(g.totalLength, 9);
  expect(line).toContain(`${g.totalLength.toFixed(1)} mm`);
  const all = pages.map(lineOf).join(' ');
  expect(all).toContain('A note of the collector.');
});
