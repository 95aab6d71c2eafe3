import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { BookInput } from '../../../src/export/book/book-input.js';
import { drawingsSection } from '../../../src/export/book/drawings-section.js';
import type { OutputFile } from '../../../src/export/output-file.js';
import type { Summary } from '../../../src/export/summary/summary-schema.js';
import { outputsOf } from '../../../src/outputs.js';
import { type BuiltHeader, buildHeader } from '../../../src/pipeline.js';
import { csvRows } from '../../support/csv-rows.js';
import { routedStarter } from '../../support/starter.js';

const NAME = 'twin <script>alert(1)</script> & "co"';
const SOURCE = 'name: twin # </pre><script>alert(2)</script>\nunits: mm\n';
const SCRIPT = 'const end = "</script><!--"; window.ran = end;';
const page: BookInput['page'] = { script: SCRIPT, source: { name: 'twin <b>.yaml', text: SOURCE } };

let built: BuiltHeader;
let files: readonly OutputFile[];
let summary: Summary;
let text: string;

const textOf = (path: string): string =>
  new TextDecoder().decode(files.find((f) => f.path === path)?.bytes ?? new Uint8Array());

/** Cells of the table under a caption, without markup. */
function tableOf(caption: string): string[][] {
  const escaped = caption.replaceAll('&', '&amp;');
  const table = text.slice(text.indexOf(`>${escaped}</caption>`)).split('</table>')[0]!;
  return [...table.matchAll(/<tr>(.*?)<\/tr>/gs)]
    .slice(1)
    .map((row) =>
      [...row[1]!.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map((c) => c[1]!.replace(/<[^>]*>/g, '').trim()),
    );
}

beforeAll(async () => {
  const header = routedStarter('v-twin');
  built = await buildHeader({ ...header, plan: { ...header.plan, name: NAME } });
  ({ files, summary } = outputsOf(built, [], () => {}, page));
  text = textOf('book.html');
});

describe('the build book', () => {
  it('is listed in the summary, and is not there without a page', () => {
    expect(summary.files).toContainEqual({ path: 'book.html', kind: 'book' });
    const without = outputsOf(built);
    expect(without.files.some((f) => f.path === 'book.html')).toBe(false);
    expect(without.summary.files.some((f) => f.kind === 'book')).toBe(false);
  });

  it('has the same bytes again', () => {
    const again = outputsOf(built, [], () => {}, page).files.find((f) => f.kind === 'book')!;
    expect(new TextDecoder().decode(again.bytes) === text).toBe(true);
  });

  it('shows a name and a plan that hold markup as text', () => {
    expect(text).toContain('<h1>twin &lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;co&quot;</h1>');
    expect(text).toContain('&lt;/pre&gt;&lt;script&gt;alert(2)&lt;/script&gt;\nunits: mm');
    expect(text).toContain('twin &lt;b&gt;.yaml as it was read');
    expect(text).not.toMatch(/<script>alert/);
    // data, script: as many ends as beginnings
    expect(text.match(/<script/g)?.length).toBe(text.match(/<\/script>/g)?.length);
    expect(text).toContain('const end = "<\\/script><\\!--"');
  });

  it('allows its own script by its sum alone, and no network', () => {
    const script = /<script>([\s\S]*?)<\/script>\n<\/body>/.exec(text)![1]!;
    const sum = createHash('sha256').update(script).digest('base64');
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(text)![1]!.replaceAll('&#39;', "'");
    expect(policy).toBe(
      `default-src 'none'; script-src 'sha256-${sum}'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'`,
    );
    expect(text).not.toMatch(/\b(?:src|href)="(?:https?:|\/\/)/);
    expect(text).not.toMatch(/@import|url\((?!#)/);
  });

  it('leads to every section, and to files that are there', () => {
    const links = [...text.matchAll(/<li><a href="#([^"]+)"/g)].map((m) => m[1]!);
    expect(links).toEqual(
      expect.arrayContaining([
        'lengths',
        'clearances',
        'view',
        'drawings',
        'cut-list',
        'stock',
        'bends',
        'checks',
        'cautions',
        'plan',
      ]),
    );
    for (const id of links) expect(text, id).toContain(`<section id="${id}"`);
    const ids = [...text.matchAll(/ id="([^"]+)"/g)].map((m) => m[1]);
    expect(new Set(ids).size).toBe(ids.length);
    const there = new Set(['summary.json', ...summary.files.map((f) => f.path)]);
    const beside = [...text.matchAll(/href="([^#"][^"]*)"/g)].map((m) => decodeURIComponent(m[1]!));
    expect(beside.length).toBeGreaterThan(20);
    expect(beside.filter((f) => !there.has(f))).toEqual([]);
  });

  it('has among its drawings the flat parts and nothing of another kind', () => {
    const svg = new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 8 4"></svg>');
    const plot: OutputFile = { path: 'tuning/lengths.svg', kind: 'tuning', bytes: svg };
    const { html } = drawingsSection({ plan: built.plan, files: [...files, plot] });
    const shown = [...html.matchAll(/href="([^"]+\.svg)"/g)].map((m) => decodeURIComponent(m[1]!));
    const pictures = files.filter((f) => f.kind === 'picture' && f.path !== 'overview.svg').map((f) => f.path);
    expect(pictures.length).toBeGreaterThan(0);
    expect(shown).toEqual(pictures);
  });

  it('has the lengths of the summary', () => {
    const rows = tableOf('Primaries: length against target');
    expect(rows.map((r) => [r[0], r[2], r[3], r[6]])).toEqual(
      summary.primaries.map((p) => [
        `cylinder ${p.cylinder}`,
        p.target_mm.toFixed(3),
        p.length_mm.toFixed(3),
        String(p.bends),
      ]),
    );
  });

  it('has every clearance of the summary with its limit', () => {
    const gaps = summary.findings.filter((f) => f.id.startsWith('clearance.'));
    expect(text).toContain(`All ${gaps.length} by kind`);
    const rows = new Set(
      [
        'Between tubes',
        'Between tubes that draw together',
        'Just before the inlets',
        'To kept-out space, and to the room of tools',
        'Of a tube to itself',
      ]
        .filter((caption) => text.includes(`>${caption}</caption>`))
        .flatMap((caption) => tableOf(caption).map((r) => `${r[0]}: ${r[1]} of ${r[2]}`)),
    );
    for (const g of gaps) expect(rows).toContain(`${g.place}: ${g.value.toFixed(2)} of ${g.limit.toFixed(2)}`);
  });

  it('has the pieces, bends and stock of the tables', () => {
    const cuts = csvRows(new TextEncoder().encode(textOf('cut-list.csv'))).filter((r) => r.cylinder === '1');
    expect(tableOf('Cylinder 1: pieces').map((r) => [r[0], r[11]])).toEqual(
      cuts.map((r) => [r.piece, Number(r.cut_length_mm).toFixed(1)]),
    );
    const bends = csvRows(new TextEncoder().encode(textOf('bend-table.csv'))).filter((r) => r.cylinder === '1');
    expect(tableOf('Cylinder 1: XYZ').map((r) => r[3])).toEqual(bends.map((r) => Number(r.z_mm).toFixed(2)));
    const pieces = tableOf('Shopping list').filter((r) => / pieces?$/.test(r[1]!));
    expect(pieces.map((r) => Number.parseInt(r[1]!, 10))).toEqual(summary.stock!.shopping.map((s) => s.count));
  });

  it('gives the reason of every check that fails or wants a look, and what to do', () => {
    const told = summary.findings.filter((f) => f.level !== 'ok');
    const list = text.slice(text.indexOf('<section id="checks"')).split('</section>')[0]!;
    for (const f of told) expect(list).toContain(f.place);
    const groups = new Set(told.map((f) => `${f.id} ${f.message}`)).size;
    expect(list.match(/class="mend"/g)?.length).toBe(groups);
  });

  it('takes in sections of other stages', () => {
    const sections = [{ id: 'tuning', title: 'Tuning', html: '<p>plots</p>' }];
    const book = outputsOf(built, [], () => {}, { ...page, sections }).files.find((f) => f.kind === 'book')!;
    expect(new TextDecoder().decode(book.bytes)).toContain('<section id="tuning" aria-labelledby="tuning-title">');
  });
});
