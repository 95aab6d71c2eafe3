import { readFileSync } from 'node:fs';
import { parse, stringify } from 'yaml';

/** Words that do harm where a program trusts them: markup, formulas of spreadsheets, paths, names of devices. */
export const HOSTILE = {
  header: '<img src=x onerror=alert(1)>',
  heads: ['"><script>alert(2)</script>', '=HYPERLINK("http://example.invalid")'],
  flange: '@SUM(1)',
  tube: "+cmd|' /C calc'!A0",
  collector: '../../up',
  keepOuts: ['-2+3', '</script><svg onload=alert(3)>', 'שלום', 'e\u0301\u0323 🔧', 'x'.repeat(80)],
  plates: ['CON', 'nul', '../plate'],
  pieces: ['aux', '..', '=1+1'],
} as const;

/** The vee twin with hostile words wherever a plan has names, as YAML. Run from the root of the project. */
export function hostilePlan(): string {
  const plan = parse(readFileSync('templates/v-twin.yaml', 'utf8'));
  plan.name = HOSTILE.header;
  plan.jig = { bed: [1000, 1000, 1000], scale: false, marks: false, foot: false, strut: 16 };
  // tuning counts from the valves
  plan.engine.cam = parse(readFileSync('templates/single.yaml', 'utf8')).engine.cam;
  HOSTILE.heads.forEach((name, i) => {
    plan.heads[i].name = name;
  });
  plan.flange.material = HOSTILE.flange;
  plan.tube.material = HOSTILE.tube;
  plan.collector.name = HOSTILE.collector;
  for (const [i, name] of HOSTILE.keepOuts.entries()) {
    const [from, to] = [
      [-900, 900 + 20 * i, -900],
      [-890, 910 + 20 * i, -890],
    ];
    plan.keep_out.push({ name, kind: 'box', from, to });
  }
  plan.plates = HOSTILE.plates.map((name) => ({
    name,
    kind: 'oval_two_bolt',
    bore: 60,
    bolt_spacing: 96,
    hole_diameter: 9.5,
  }));
  plan.gaskets = {};
  plan.patterns = { extra: HOSTILE.pieces.map((name) => ({ name, kind: 'mitre', angle: 22.5, od: 50, wall: 2 })) };
  plan.drawing = { sheet: { size: [1250, 625] } };
  return stringify(plan);
}
