import type { ExhaustPipe } from '../exhaust-system.js';
import { type DuctShape, ductShape } from '../gas/duct.js';
import { checkRange } from './gas-engine.js';

/** Two stations nearer than this are a step, m. */
const STEP = 1e-9;

/**
 * The cells of a pipe. `longer` m are added at its end in its last bore, for an end correction. Throws RangeError for what is no pipe,
 * with the range.
 */
export function pipeDuct(pipe: ExhaustPipe, cellLength: number, wall: number, longer = 0): DuctShape {
  checkPipe(pipe);
  const length = pipe.length + longer;
  const cells = Math.max(2, Math.round(length / cellLength));
  const half = length / cells / 2;
  return ductShape({
    length,
    cells,
    area: (x) => areaAt(pipe, x),
    wall: () => wall,
    // a bend shorter than a cell must not fall between two middles: the mean over the cell
    bendLoss: (x) => pipe.bends.reduce((sum, b) => sum + (b.loss * shareOf(b, x - half, x + half)) / (2 * half), 0),
    roughness: pipe.roughness,
    heatShare: pipe.heatShare,
  });
}

/** Area, m2, at a distance from the start, m: straight lines of diameter between stations, the last one beyond them. */
export function areaAt({ stations }: ExhaustPipe, x: number): number {
  const after = stations.findIndex((s) => s.at > x);
  if (after < 0) return stations.at(-1)!.area;
  if (after === 0) return stations[0]!.area;
  const [a, b] = [stations[after - 1]!, stations[after]!];
  const t = b.at - a.at > STEP ? (x - a.at) / (b.at - a.at) : 1;
  return (Math.sqrt(a.area) + t * (Math.sqrt(b.area) - Math.sqrt(a.area))) ** 2;
}

/** Part of a bend that lies between two distances, 0 to 1. */
function shareOf(bend: { readonly from: number; readonly to: number }, from: number, to: number): number {
  const length = bend.to - bend.from;
  if (length <= 0) return bend.from >= from && bend.from < to ? 1 : 0;
  return Math.max(0, Math.min(bend.to, to) - Math.max(bend.from, from)) / length;
}

function checkPipe({ name, length, stations, bends, roughness, heatShare }: ExhaustPipe): void {
  checkRange(`${name}: length`, length, 0.001, 20, 'm');
  checkRange(`${name}: stations`, stations.length, 1, 10_000, '');
  for (const [i, { at, area }] of stations.entries()) {
    checkRange(`${name}: place of station ${i + 1}`, at, i === 0 ? 0 : stations[i - 1]!.at, length * (1 + 1e-9), 'm');
    checkRange(`${name}: area at ${at} m`, area, 5e-6, 0.5, 'm2');
  }
  for (const { from, to, loss } of bends) {
    checkRange(`${name}: start of a bend`, from, -STEP, length, 'm');
    checkRange(`${name}: end of a bend`, to, from, length * (1 + 1e-9) + STEP, 'm');
    checkRange(`${name}: loss coefficient of a bend`, loss, 0, 20, '');
  }
  checkRange(`${name}: roughness`, roughness, 0, 0.005, 'm');
  checkRange(`${name}: part of the heat loss`, heatShare, 0, 1, '');
}
