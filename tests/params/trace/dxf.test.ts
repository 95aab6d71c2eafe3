import { describe, expect, type TestContext, test } from 'vitest';
import { circleOf } from '../../../src/geometry/outline/make.js';
import { outlineArea, outlineBounds, perimeter } from '../../../src/geometry/outline/measure.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { type DxfVersion, drawnByEzdxf } from '../../support/ezdxf-drawing.js';
import { requireTool } from '../../support/tools.js';
import { readTraced, tracedOf } from '../../support/trace-plan.js';

const VERSIONS: readonly DxfVersion[] = ['R12', 'R2000', 'R2010', 'R2018'];
const NEWER: readonly DxfVersion[] = ['R2000', 'R2010', 'R2018'];

/** The first port of the base plan from a drawing that ezdxf makes; R12 has no $INSUNITS, so the plan says the unit. */
function traced(context: TestContext, version: DxfVersion, code: string, fields = '') {
  const bytes = drawnByEzdxf(requireTool('ezdxf', context), code, version);
  const found = tracedOf(`file: a.dxf${version === 'R12' ? ', unit: mm' : ''}${fields}`, { 'a.dxf': bytes });
  validateOutline(found.port.outline);
  return found;
}

/** A stadium of 40 x 20 mm about 100, 50 in loose pieces, drawn in a muddled order and both ways. */
const LOOSE = `
m.add_line((90, 40), (110, 40))
m.add_arc((90, 50), 10, 90, 270)
m.add_line((90, 60), (110, 60))
m.add_arc((110, 50), 10, 270, 90)
`;
const STADIUM = { area: 20 * 20 + Math.PI * 100, length: 40 + 20 * Math.PI };

describe('entities of drawings by ezdxf', () => {
  test.for(VERSIONS)(
    '%s: loose lines and arcs are joined, exact, about the centre of their area',
    (version, context) => {
      const { port, notes } = traced(context, version, LOOSE);
      expect(outlineArea(port.outline)).toBeCloseTo(STADIUM.area, 6);
      expect(perimeter(port.outline)).toBeCloseTo(STADIUM.length, 6);
      const { from, to } = outlineBounds(port.outline);
      expect(from[0]).toBeCloseTo(-20, 6);
      expect(from[1]).toBeCloseTo(-10, 6);
      expect(to[0]).toBeCloseTo(20, 6);
      expect(to[1]).toBeCloseTo(10, 6);
      expect(port.shape).toBe('traced 40 x 20 mm from a.dxf');
      expect(notes).toEqual([]);
    },
  );

  test.for(VERSIONS)('%s: a circle', (version, context) => {
    const { port } = traced(context, version, 'm.add_circle((7, -3), 19.05)');
    expect(circleOf(port.outline)!.diameter).toBeCloseTo(38.1, 9);
  });

  test.for(VERSIONS)('%s: a polyline in the old form, with bulges', (version, context) => {
    const { port } = traced(
      context,
      version,
      'p = m.add_polyline2d([(0, 0, 0), (20, 0, 1), (20, 20, 0), (0, 20, 1)], format="xyb"); p.close(True)',
    );
    expect(outlineArea(port.outline)).toBeCloseTo(STADIUM.area, 9);
  });

  test.for(NEWER)('%s: a light polyline, closed by its flag, or by its last point, or both', (version, context) => {
    for (const [points, flag] of [
      ['(0, 0, 0), (20, 0, 1), (20, 20, 0), (0, 20, 1)', 'True'],
      ['(0, 0, 0), (20, 0, 1), (20, 20, 0), (0, 20, 1), (0, 0, 0)', 'False'],
      ['(0, 0, 0), (20, 0, 1), (20, 20, 0), (0, 20, 1), (0, 0, 0)', 'True'],
    ]) {
      const { port } = traced(context, version, `m.add_lwpolyline([${points}], format="xyb", close=${flag})`);
      expect(outlineArea(port.outline)).toBeCloseTo(STADIUM.area, 9);
      expect(port.outline.vertices).toHaveLength(4);
    }
  });

  test.for(NEWER)('%s: an ellipse is fitted within the tolerance: its area is pi a b', (version, context) => {
    const { port, notes } = traced(context, version, 'm.add_ellipse((50, 50), (24, 0), 0.75)');
    expect(Math.abs(outlineArea(port.outline) - Math.PI * 24 * 18)).toBeLessThan(0.02 * 2 * Math.PI * 24);
    expect(port.outline.vertices.length).toBeLessThanOrEqual(24);
    expect(notes[0]).toMatch(
      /^port of cylinder 1: \d+ points of a\.dxf are fitted by \d+ lines and arcs, largest deviation 0\.0[01]\d* mm$/,
    );
  });

  test.for(NEWER)('%s: half an ellipse and a line', (version, context) => {
    const { port } = traced(
      context,
      version,
      'm.add_ellipse((0, 0), (0, 20), 0.5, start_param=0, end_param=3.141592653589793); m.add_line((0, -20), (0, 20))',
    );
    expect(Math.abs(outlineArea(port.outline) - Math.PI * 100)).toBeLessThan(1.5);
  });

  test.for(NEWER)('%s: a spline whose weights make it a circle; the exact radius is known', (version, context) => {
    const w = 'math.sqrt(0.5)';
    const code = `
import math
c = [(20, 0), (20, 20), (0, 20), (-20, 20), (-20, 0), (-20, -20), (0, -20), (20, -20), (20, 0)]
m.add_rational_spline(c, [1, ${w}, 1, ${w}, 1, ${w}, 1, ${w}, 1], degree=2, knots=[0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4])`;
    const { port } = traced(context, version, code);
    for (const v of port.outline.vertices) expect(Math.hypot(v.x, v.y)).toBeCloseTo(20, 2);
    expect(Math.abs(outlineArea(port.outline) - Math.PI * 400)).toBeLessThan(0.02 * 40 * Math.PI);
    expect(port.outline.vertices.length).toBeLessThanOrEqual(4);
  });

  test.for(NEWER)('%s: cubic splines, open ones joined by lines, have the area ezdxf reads', (version, context) => {
    const { port } = traced(
      context,
      version,
      'm.add_open_spline([(0, 0), (5, 12), (20, 18), (35, 12), (40, 0)], degree=3); m.add_line((40, 0), (0, 0))',
    );
    // By ezdxf 0.18: flattened to 0.00001 mm, shoelace.
    expect(Math.abs(outlineArea(port.outline) - 439.49985)).toBeLessThan(0.02 * 90);
    expect(port.outline.vertices.length).toBeLessThanOrEqual(16);
    expect(port.outline.vertices.some((v) => v.bulge === 0)).toBe(true);
  });

  test.for(VERSIONS)('%s: arcs and polylines drawn from below (extrusion 0, 0, -1)', (version, context) => {
    const { port } = traced(
      context,
      version,
      `
m.add_line((90, 40), (110, 40))
m.add_arc((-90, 50), 10, 270, 90, dxfattribs=below)
m.add_line((90, 60), (110, 60))
m.add_arc((110, 50), 10, 270, 90)
`,
    );
    expect(outlineArea(port.outline)).toBeCloseTo(STADIUM.area, 6);
  });

  test.for(VERSIONS)('%s: words and points on the layer are left out and said', (version, context) => {
    const { notes } = traced(context, version, `${LOOSE}\nm.add_text("port 1")\nm.add_point((0, 0))`);
    expect(notes).toEqual(['port of cylinder 1: a.dxf: not cut, and left out: 1 TEXT, 1 POINT']);
  });

  test.for(VERSIONS)(
    '%s: one layer of several, by any case; switched off and frozen ones only when asked for',
    (version, context) => {
      const code = `
for n in ('PORT', 'EDGE', 'NOTES'): doc.layers.new(n)
m.add_circle((0, 0), 20, dxfattribs={'layer': 'PORT'})
m.add_circle((0, 0), 50, dxfattribs={'layer': 'EDGE'})
m.add_circle((0, 0), 70, dxfattribs={'layer': 'NOTES'})
doc.layers.get('EDGE').off()
doc.layers.get('NOTES').freeze()`;
      const any = traced(context, version, code);
      expect(circleOf(any.port.outline)!.diameter).toBeCloseTo(40, 9);
      expect(any.notes).toEqual(['port of cylinder 1: a.dxf: 2 entities on layers that are switched off are left out']);
      expect(circleOf(traced(context, version, code, ', layer: edge').port.outline)!.diameter).toBeCloseTo(100, 9);
    },
  );

  test.for([
    [1, 25.4],
    [2, 304.8],
    [4, 1],
    [5, 10],
    [6, 1000],
  ] as const)('$INSUNITS %d gives %d mm', ([units, mm], context) => {
    const bytes = drawnByEzdxf(requireTool('ezdxf', context), `m.add_circle((0, 0), ${20 / mm})`, 'R2010', units);
    const { port } = tracedOf('file: a.dxf', { 'a.dxf': bytes });
    expect(circleOf(port.outline)!.diameter).toBeCloseTo(40, 9);
  });

  test.for(NEWER)('%s: a block is refused by its entity and line', (version, context) => {
    const code = 'b = doc.blocks.new("P"); b.add_circle((0, 0), 5); m.add_blockref("P", (0, 0))';
    const read = readTraced('file: a.dxf', { 'a.dxf': drawnByEzdxf(requireTool('ezdxf', context), code, version) });
    expect(read.ok).toBe(false);
    expect(!read.ok && read.text).toMatch(
      /cannot use "a\.dxf": INSERT [0-9A-F]+ \(line \d+\) on layer "0" is a block; explode it, or choose another layer$/,
    );
  });

  test.for(NEWER)('%s: what is no flat line is refused by its entity and line', (version, context) => {
    const python = requireTool('ezdxf', context);
    for (const [code, words] of [
      ['m.add_line((0, 0, 0), (9, 0, 5))', / LINE [0-9A-F]+ \(line \d+\) does not lie flat: its z goes from 0 to 5$/],
      [
        'm.add_circle((0, 0), 5, dxfattribs={"extrusion": (1, 0, 1)})',
        / CIRCLE .* does not lie in the drawing's plane: its extrusion is 1, 0, 1$/,
      ],
      [
        'm.add_3dface([(0, 0), (9, 0), (9, 9)])',
        / 3DFACE .* on layer "0" cannot be read; turn it into lines and arcs, or choose another layer$/,
      ],
      [
        'm.add_spline([(0, 0), (9, 0), (9, 9)])',
        / SPLINE .* has fit points and no control points; convert it to a polyline or arcs before saving$/,
      ],
      [
        'm.add_polyline3d([(0, 0, 0), (9, 0, 0), (9, 9, 3)])',
        / POLYLINE .* does not lie flat: VERTEX .* has another z$/,
      ],
      ['m.add_polyface()', / POLYLINE .* is a mesh, not a line$/],
    ] as const) {
      const read = readTraced('file: a.dxf', { 'a.dxf': drawnByEzdxf(python, code, version) });
      expect(!read.ok && read.text).toMatch(words);
    }
  });
});
