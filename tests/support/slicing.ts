import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';

/** What a slicer says of one build plate. */
export interface SlicedPlate {
  /** Parts it found closed. */
  readonly parts: number;
  /** Every line that tells of a repair, an open edge or something outside the bed, and failure to give paths. */
  readonly faults: readonly string[];
}

/**
 * Coarse but whole: every part is cut into layers with walls and a solid layer under and over it, which is where the slicer repairs or
 * refuses; filling and more solid layers take time and prove nothing of the mesh.
 */
const COARSE = [
  ['--layer-height', '0.3'],
  ['--first-layer-height', '0.3'],
  ['--perimeters', '1'],
  ['--fill-density', '0%'],
  ['--top-solid-layers', '1'],
  ['--bottom-solid-layers', '1'],
  ['--skirts', '0'],
].flat();

/** A 3MF plate handed to the slicer as it lies on a square bed of that size, mm, to export its paths. */
export function slicedPlate(slicer: string, path: string, bed = 210): SlicedPlate {
  const info = spawnSync(slicer, ['--info', path], { encoding: 'utf8' });
  const text = info.stdout + info.stderr;
  const faults = linesOf(text, /repair|manifold = no|open_edges = [1-9]|facets_(removed|reversed) = [1-9]/i);
  const gcode = `${path}.gcode`;
  const shape = ['--bed-shape', `0x0,${bed}x0,${bed}x${bed},0x${bed}`];
  const args = ['--export-gcode', '--dont-arrange', ...COARSE, ...shape, '-o', gcode, path];
  const told = spawnSync(slicer, args, { encoding: 'utf8' });
  const said = linesOf(told.stdout + told.stderr, /repair|outside|error/i);
  if (told.status !== 0) said.push(`exit ${told.status}`);
  else if (!/^G1 X.* E/m.test(readFileSync(gcode, 'utf8'))) said.push('no paths');
  rmSync(gcode, { force: true });
  return { parts: text.match(/manifold = yes/g)?.length ?? 0, faults: [...faults, ...said] };
}

const linesOf = (text: string, of: RegExp): string[] => text.split('\n').filter((l) => of.test(l));
