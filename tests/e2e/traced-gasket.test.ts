import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { evenrun, TEMPLATE_FOLDER } from '../support/command.js';

const folder = mkdtempSync(join(tmpdir(), 'evenrun-traced-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const drawing = join(folder, 'traced-gasket.dxf');

describe('a starter plan that names a drawing', () => {
  it('is written with its drawing, once', () => {
    const first = evenrun(['new', 'one', '--template', 'traced-gasket'], folder);
    expect(first.out).toContain('Wrote one.yaml and traced-gasket.dxf.');
    expect(readFileSync(drawing).equals(readFileSync(join(TEMPLATE_FOLDER, 'traced-gasket.dxf')))).toBe(true);
    expect(evenrun(['new', 'two', '--template', 'traced-gasket'], folder).out).toContain('Wrote two.yaml. Edit');
  });

  it('reads the drawing beside the plan and holds its checks', () => {
    const ran = evenrun(['check', 'one.yaml', '--json'], folder);
    expect(ran.code).toBe(0);
    expect(JSON.parse(ran.out).primaries).toHaveLength(3);
  });

  it('names line and entity when the drawing is mended badly', () => {
    const text = readFileSync(join(folder, 'one.yaml'), 'utf8').replace('heal: 0.1 ', 'heal: 0.01');
    writeFileSync(join(folder, 'strict.yaml'), text);
    const ran = evenrun(['check', 'strict.yaml'], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(
      /strict\.yaml:\d+:\d+ head\.trace\.file: cannot use "traced-gasket\.dxf": a contour does not close: LINE number \d+ \(line \d+\) ends loose at [\d., ]+ mm, and the nearest loose end, of ARC number \d+ \(line \d+\)/,
    );
  });

  it('is not written over another drawing, and then not at all', () => {
    writeFileSync(drawing, 'mine');
    const ran = evenrun(['new', 'three', '--template', 'traced-gasket'], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('cannot write traced-gasket.dxf: another file of that name exists already');
    expect(existsSync(join(folder, 'three.yaml'))).toBe(false);
    expect(readFileSync(drawing, 'utf8')).toBe('mine');
  });
});
