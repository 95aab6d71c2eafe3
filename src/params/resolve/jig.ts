import { frameAlong } from '../../geometry/frame.js';
import type { JigHolder, JigPlan } from '../plan.js';
import type { PlanFile } from '../schema/plan-file.js';
import { clearanceHole, threadDiameter } from '../tables/bolt-holes.js';
import { benchOf } from './jig-bench.js';
import { printOf } from './jig-print.js';

type JigFile = PlanFile['jig'];

/** The printer and the mock-up of a plan; `collectors` are the collectors' names in order. */
export function jigOf(jig: JigFile, units: 'mm' | 'in', collectors: readonly string[]): JigPlan {
  return {
    units,
    bed: jig.bed,
    fit: jig.fit,
    plate: jig.plate,
    keyLength: jig.key_length,
    strut: jig.strut === 'auto' ? null : jig.strut,
    joint: jig.joint,
    pressFit: jig.press_fit,
    tubeWall: jig.tube === 'hollow' ? jig.tube_wall : null,
    cord: jig.cord ?? null,
    scale: jig.scale ? units : null,
    marks: jig.marks,
    chamfer: jig.chamfer,
    foot: footOf(jig.foot),
    holder: jig.holder === undefined ? null : holderOf(jig.holder, collectors),
    comb: jig.comb,
    gap: jig.gap,
    print: printOf(jig.print),
    bench: benchOf(jig.bench),
  };
}

function footOf(foot: JigFile['foot']): JigPlan['foot'] {
  if (typeof foot === 'boolean') return foot ? { bolts: null } : null;
  return { bolts: foot.bolts };
}

function holderOf(holder: NonNullable<JigFile['holder']>, collectors: readonly string[]): JigHolder {
  return {
    collector: holder.collector === undefined ? 0 : collectors.indexOf(holder.collector),
    bolts: holder.bolts.map(({ at, normal, thread }) => ({
      frame: frameAlong(at, normal),
      holeDiameter: clearanceHole(thread, 'medium'),
      threadDiameter: threadDiameter(thread),
    })),
  };
}
