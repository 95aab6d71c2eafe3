import { spawnSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { platesTable } from '../../src/export/csv/plates-table.js';
import { sheetDxf } from '../../src/export/dxf/sheet-dxf.js';
import { flatPdf } from '../../src/export/paper/flat-pdf.js';
import { flatSvg } from '../../src/export/svg/flat-svg.js';
import { sheetSvg } from '../../src/export/svg/sheet-svg.js';
import { outlineArea } from '../../src/geometry/outline/measure.js';
import { flangesOf } from '../../src/parts/flange/flange.js';
import { flatPartsOf } from '../../src/parts/plates/flat-parts.js';
import { layOut } from '../../src/parts/plates/sheet.js';
import { BASE, planFrom } from '../params/base-plan.js';
import { PLATES } from '../params/plate-plan.js';
import { measureDxfs } from '../support/measure-dxf.js';
import { requireTool } from '../support/tools.js';

const plan = planFrom(`${BASE}${PLATES}gaskets: {}\ndrawing: { sheet: { size: [900, 600], count: 2 } }\n`);
const flat = flatPartsOf(plan, flangesOf(plan));
const { sheets } = layOut(flat.all, plan.drawing.sheet!);

test('every sheet audits clean and holds its pieces with their areas; its edge and notes are not cut', (context) => {
  const choices = [undefined, { units: 'in', version: 'r12', curves: 'lines_and_arcs' } as const];
  for (const options of choices) {
    const scale = options === undefined ? 1 : 25.4 ** 2;
    const reads = measureDxfs(
      requireTool('ezdxf', context),
      sheets.map((s) => sheetDxf(s, options).bytes),
    );
    reads.forEach((read, i) => {
      expect([...read.errors, ...read.fixes]).toEqual([]);
      const meant = sheets[i]!.pieces.map((p) => outlineArea(p.part.cut.outer)).sort((a, b) => a - b);
      const found = read.areas.CUT_OUTER!.map((a) => a * scale).sort((a, b) => a - b);
      expect(found).toHaveLength(meant.length);
      found.forEach((a, k) => {
        expect(Math.abs(a / meant[k]! - 1)).toBeLessThan(1e-6);
      });
      expect(read.types.SHEET).toBeDefined();
    });
  }
});

test('pictures and prints of every plate and sheet can be drawn by others', (context) => {
  const rsvg = requireTool('rsvg-convert', context);
  for (const svg of [...flat.all.map(flatSvg), ...sheets.map(sheetSvg)]) {
    expect(Buffer.from(svg.bytes).toString()).not.toMatch(/NaN|undefined|Infinity|e-\d/);
    const run = spawnSync(rsvg, ['-w', '200'], { input: svg.bytes });
    expect(run.stderr.toString(), svg.path).toBe('');
  }
  const pdftoppm = requireTool('pdftoppm', context);
  for (const pdf of flat.all.map((p) => flatPdf(p, 'letter'))) {
    const run = spawnSync(pdftoppm, ['-r', '20', '-gray', '-'], { input: pdf.bytes });
    expect(run.stderr.toString(), pdf.path).toBe('');
    expect(run.stdout.subarray(0, 2).toString()).toBe('P5');
  }
});

test('plates stand in a table with their numbers', () => {
  const file = platesTable(flat.plates);
  expect(file).toMatchObject({ path: 'plates.csv', kind: 'plates' });
  const rows = new TextDecoder().decode(file.bytes).trim().split('\r\n');
  expect(rows).toHaveLength(1 + flat.plates.length);
  expect(rows.find((r) => r.startsWith('slip,'))).toContain('roll to a sleeve 50.40 mm inside');
  expect(rows.find((r) => r.startsWith('downpipe,'))).toContain('2 x hole 11.00 mm for M10');
});
