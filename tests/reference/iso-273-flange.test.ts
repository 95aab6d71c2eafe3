import { expect, test } from 'vitest';
import { flatDxf } from '../../src/export/dxf/flat-dxf.js';
import { circleOutline } from '../../src/geometry/outline/make.js';
import { BOLT_SIZES } from '../../src/params/tables/bolt-holes.js';
import { flangesOf } from '../../src/parts/flange/flange.js';
import { flatFlange } from '../../src/parts/plates/flat-flange.js';
import { boltAt, planWith } from '../support/plan-fixture.js';
import { readDxf } from '../support/read-dxf.js';
import { requireTool } from '../support/tools.js';

// ISO 273, clearance holes for bolts: fine, medium, coarse.
test.for([
  ['M6', 6.4, 6.6, 7],
  ['M8', 8.4, 9, 10],
  ['M10', 10.5, 11, 12],
  ['M12', 13, 13.5, 14.5],
] as const)('holes for %s come out of the drawing at %d, %d and %d mm', ([thread, fine, medium, coarse], context) => {
  const python = requireTool('ezdxf', context);
  const { hole, thread: size } = BOLT_SIZES[thread];
  const bolts = [hole.fine, hole.medium, hole.coarse].map((d, i) => boltAt([45 * (i - 1), 45], d, thread, size));
  const plan = planWith([{ at: [0, 0], outline: circleOutline([0, 0], 38) }], bolts, { thickness: 4 });
  const { entities } = readDxf(python, flatDxf(flatFlange(flangesOf(plan)[0]!)).bytes);
  const holes = entities.filter((e) => e.layer === 'CUT_INNER' && e.type === 'CIRCLE').map((e) => e.diameter);
  expect(holes).toEqual(expect.arrayContaining([fine, medium, coarse].map((d) => expect.closeTo(d, 6))));
});
