import { degrees } from '../geometry/angle.js';
import { type LengthWords, lengthsIn, volumeWords } from '../params/faults/wording.js';
import type { LengthUnit } from '../params/units.js';
import { RAISED } from '../parts/jigs/printed-writing.js';
import { type AssemblyProof, PROOF_LIMITS } from '../parts/jigs/proof.js';
import { LINE, TICK } from '../parts/jigs/tube-marks.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/**
 * The mock-up as it goes together, measured on the printed parts: none in another's place, every joint closed and with its fit, the
 * collectors' inlets and the centrelines where the design has them. A mock-up that shows a tube in a wrong place fails; one that
 * merely does not go together well is a warning.
 */
export function jigsGoTogether({ plan, proof }: CheckContext): Finding[] {
  if (proof === undefined) return [];
  const { units } = plan;
  const words = lengthsIn(units);
  return [
    ...overlaps(proof, units),
    ...mates(proof, plan.jig.fit, words),
    ...poses(proof, words),
    ...centrelines(proof, words),
    ...marks(proof, words),
  ];
}

function overlaps({ overlaps: shared, pairs, loose }: AssemblyProof, units: LengthUnit): Finding[] {
  const limit = PROOF_LIMITS.overlap;
  const over = shared.filter((o) => o.volume > limit);
  const common = { id: 'jig.overlap', limit, unit: 'mm3' as const };
  const apart = loose.map(
    (name): Finding => ({
      id: 'jig.mate',
      level: 'warn',
      place: name,
      value: 1,
      limit: 0,
      unit: 'count',
      message: 'It hangs together with no printed flange: hold it by other means.',
    }),
  );
  if (over.length > 0) {
    const found = over.map(
      (o): Finding => ({
        ...common,
        level: 'warn',
        place: `${o.a} and ${o.b}`,
        value: o.volume,
        message: `They want ${volumeWords(o.volume, units, 1)} of the same space; file it off one of them.`,
      }),
    );
    return [...found, ...apart];
  }
  const most = Math.max(0, ...shared.map((o) => o.volume));
  const message = `No two of the parts overlap: ${pairs} neighbouring pairs share ${volumeWords(most, units, 2)} at most, which is rounding.`;
  return [{ ...common, level: 'ok', place: 'mock-up', value: most, message }, ...apart];
}

/** One finding a joint that is not as it should be; else one for all. */
function mates({ mates: all }: AssemblyProof, fit: number, words: LengthWords): Finding[] {
  const judged = all.map((m) => {
    const aside = m.offset ?? 0;
    const face = aside > PROOF_LIMITS.offset ? Math.max(m.face ?? Infinity, aside) : (m.face ?? Infinity);
    // a joint without a key opens as far as it is drawn
    const plain = m.fit > m.drawn - PROOF_LIMITS.fit;
    return { m, face, key: plain ? 0 : Math.abs(m.fit - fit) };
  });
  const common = { id: 'jig.mate', unit: 'mm' as const };
  const bad = judged.filter((j) => j.face > PROOF_LIMITS.face || j.key > PROOF_LIMITS.fit);
  if (bad.length === 0 && all.length > 0) {
    const face = Math.max(...judged.map((j) => j.face));
    const key = Math.max(...judged.map((j) => j.key));
    const message = `${all.length} joints close to ${words(face, 4)} and keep their fit of ${words(fit)} to ${words(key, 3)}.`;
    return [{ ...common, level: 'ok', place: 'mock-up', value: face, limit: PROOF_LIMITS.face, message }];
  }
  return bad.map(({ m, face, key }): Finding => {
    const place = `${m.before} and ${m.after}`;
    if (face <= PROOF_LIMITS.face) {
      const message = `Their key has a gap of ${words(m.fit, 3)} where the plan's fit is ${words(fit)}.`;
      return { ...common, level: 'warn', place, value: key, limit: PROOF_LIMITS.fit, message };
    }
    const value = Number.isFinite(face) ? face : NOT_FOUND;
    const how = Number.isFinite(face) ? `are ${words(face, 3)} out` : 'were not found at their joint';
    return { ...common, level: 'warn', place, value, limit: PROOF_LIMITS.face, message: `Their faces ${how}.` };
  });
}

/** Stands for what was not found where it should be, mm: as far as it was looked for. */
const NOT_FOUND = 2;

function poses({ poses: all }: AssemblyProof, words: LengthWords): Finding[] {
  return all.map(({ collector, inlet, place, turn }): Finding => {
    const off = place ?? NOT_FOUND;
    const ok = place !== null && place <= PROOF_LIMITS.pose && turn! <= PROOF_LIMITS.turn;
    const message =
      place === null
        ? 'The round end of the printed holder was not found at the inlet.'
        : `The printed holder has the inlet within ${words(off, 4)} and ${degrees(turn!).toFixed(3)} degrees of the plan.`;
    return {
      id: 'jig.place',
      level: ok ? 'ok' : 'fail',
      place: `collector ${collector} inlet ${inlet}`,
      value: off,
      limit: PROOF_LIMITS.pose,
      unit: 'mm',
      message,
    };
  });
}

function centrelines({ centrelines: all }: AssemblyProof, words: LengthWords): Finding[] {
  return all.map((c): Finding => {
    const { centreline, skin } = PROOF_LIMITS;
    const ok = c.sections >= c.wanted / 2 && c.error <= centreline && c.radius <= skin && c.skin <= 2 * skin;
    return {
      id: 'jig.centreline',
      level: ok ? 'ok' : 'fail',
      place: c.tube,
      value: c.error,
      limit: centreline,
      unit: 'mm',
      message:
        `The dummy tubes keep to the route within ${words(c.error, 3)} (furthest at ${words(c.run, 0)}) and to the tube's ` +
        `radius within ${words(c.radius, 3)}, in ${c.sections} of ${c.wanted} sections.`,
    };
  });
}

/** Marks too high, too low or too shallow lead nobody astray but may not print: a warning. */
function marks({ marks: all }: AssemblyProof, words: LengthWords): Finding[] {
  const limit = PROOF_LIMITS.mark;
  return all.map(({ tube, ticks, lines, names }): Finding => {
    const sorts = [
      { ...ticks, words: `the scale stands ${words(TICK.high)} proud`, unit: 'ticks' },
      { ...lines, words: `clocking lines are ${words(LINE.depth)} deep`, unit: 'lines' },
      { ...names, words: `names stand ${words(RAISED)} proud`, unit: 'names' },
    ].filter((s) => s.found > 0 || (s.wanted > 0 && s.unit !== 'names'));
    const told = sorts.map(
      (s) =>
        `${s.words} within ${words(s.error, 3)} (furthest at ${words(s.run, 0)}): ${s.found} of ${s.wanted} ${s.unit} found`,
    );
    // short pieces have no room for a name
    const enough = [ticks, lines].every((s) => s.found >= s.wanted / 2);
    const error = Math.max(ticks.error, lines.error, names.error);
    return {
      id: 'jig.mark',
      level: error <= limit && enough ? 'ok' : 'warn',
      place: tube,
      value: error,
      limit,
      unit: 'mm',
      message: told.length === 0 ? 'No marks to measure.' : `Measured over the skin: ${told.join('; ')}.`,
    };
  });
}
