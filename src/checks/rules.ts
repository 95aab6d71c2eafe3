import { jigsGoTogether } from './assembly.js';
import { bendStock, steps, straights } from './bends.js';
import { clearances } from './clearance.js';
import { branches, diffusers, throats } from './collector.js';
import type { CheckContext } from './context.js';
import { lengthAgainstTarget, spread } from './equal-length.js';
import type { Finding } from './finding.js';
import { flangeEdges, flangeWebs } from './flange.js';
import { boltsClear } from './flange-bolts.js';
import { cutTolerance } from './flange-cut.js';
import { boltGrowth } from './flange-growth.js';
import { remarks } from './flange-notes.js';
import { flangeRelief, flangesApart, notches } from './flange-style.js';
import { torchReaches, weldFitsEdge } from './flange-weld.js';
import { holdersStiff } from './holder-stiffness.js';
import { inletOrder } from './inlet-order.js';
import { jigNotes } from './jig-notes.js';
import { jigsPrint } from './jig-print.js';
import { jigsFit } from './jigs.js';
import { openings } from './opening.js';
import { pairing } from './pairing.js';
import { plates, sheetFit } from './plates.js';
import { routeEnds } from './route-ends.js';
import { searchBudget } from './search-budget.js';
import { stockMakes } from './stock.js';

/** Every rule, in the order a fabricator asks. A new rule is one function in one file and one row here. */
const RULES: readonly ((context: CheckContext) => readonly Finding[])[] = [
  spread,
  lengthAgainstTarget,
  searchBudget,
  routeEnds,
  inletOrder,
  pairing,
  clearances,
  straights,
  bendStock,
  steps,
  diffusers,
  throats,
  branches,
  flangeEdges,
  flangeWebs,
  flangesApart,
  flangeRelief,
  notches,
  openings,
  plates,
  sheetFit,
  boltsClear,
  weldFitsEdge,
  torchReaches,
  cutTolerance,
  boltGrowth,
  jigsFit,
  jigsPrint,
  jigNotes,
  stockMakes,
  jigsGoTogether,
  holdersStiff,
  remarks,
];

/** The findings of every rule. */
export const check = (context: CheckContext): readonly Finding[] => RULES.flatMap((rule) => rule(context));

/** True when no finding breaks a limit. */
export const passes = (findings: readonly Finding[]): boolean => findings.every((f) => f.level !== 'fail');
