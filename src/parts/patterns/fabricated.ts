import { circleRim, rectangleRim } from '../../geometry/development/convex-rim.js';
import { lengthWords, sizeWords } from '../../params/faults/wording.js';
import type { FabricatedPiece } from '../../params/plan.js';
import type { LengthUnit } from '../../params/units.js';
import { fileName } from '../printed-part.js';
import { mitrePattern, pieCutPatterns } from './mitre-patterns.js';
import type { Pattern } from './pattern.js';
import { saddlePatterns } from './saddle-patterns.js';
import { frustumPattern, type SheetSpec, transitionPattern } from './sheet-pattern.js';
import type { Layout } from './wrap.js';

/** The patterns of a piece the plan asks for. Throws RangeError for sizes that no rule of the plan let through. */
export function fabricatedPatterns(piece: FabricatedPiece, layout: Layout): readonly Pattern[] {
  const named = { name: fileName(piece.name) || 'piece', title: piece.name, count: piece.count };
  switch (piece.kind) {
    case 'mitre':
      return [
        mitrePattern(named, piece, piece.angle, layout, {
          reference: 'long side',
          guide: 'to the joint',
          notes: [`Tube ${sizeWords([piece.od, piece.wall], layout.units, 2)}`],
        }),
      ];
    case 'pie_cut':
      return pieCutPatterns(named, piece, piece, layout);
    case 'saddle': {
      const host = { od: piece.hostOd, wall: piece.hostWall };
      return saddlePatterns({ ...named, branch: piece, host, angle: piece.angle, offset: piece.offset }, layout);
    }
    default:
      return [sheetPattern(piece, named, layout.units)];
  }
}

type Sheet = Exclude<FabricatedPiece, { kind: 'mitre' | 'pie_cut' | 'saddle' }>;

function sheetPattern(piece: Sheet, named: Pick<SheetSpec, 'name' | 'title' | 'count'>, units: LengthUnit): Pattern {
  const { thickness, material, height } = piece;
  const spec: SheetSpec = { ...named, thickness, material, units, notes: [shapeWords(piece, units)] };
  const grow = { outside: -thickness, inside: thickness, middle: 0 }[piece.measured];
  if (piece.kind === 'frustum') return frustumPattern(spec, piece.from + grow, piece.to + grow, height);
  if (piece.kind === 'eccentric') {
    const low = circleRim([0, 0], piece.from + grow);
    const high = circleRim([piece.offset, 0], piece.to + grow);
    return transitionPattern(spec, { low, high, height }, [{ normal: 0, label: 'side the end is set off to' }]);
  }
  const corner = Math.max(piece.cornerRadius + grow / 2, 0);
  const low = rectangleRim(piece.width + grow, piece.depth + grow, piece.cornerRadius === 0 ? 0 : corner);
  const high = circleRim(piece.offset, piece.diameter + grow);
  const quarter = Math.PI / 2;
  return transitionPattern(spec, { low, high, height }, [
    { normal: 0, label: 'right' },
    { normal: quarter, label: 'far' },
    { normal: 2 * quarter, label: 'left' },
    { normal: 3 * quarter, label: 'near' },
  ]);
}

function shapeWords(p: Sheet, units: LengthUnit): string {
  const words = (value: number): string => lengthWords(value, units, 2);
  const face = `${p.measured} sizes`;
  if (p.kind === 'frustum') return `${words(p.from)} to ${words(p.to)} over ${words(p.height)}, ${face}`;
  if (p.kind === 'eccentric') {
    return `${words(p.from)} to ${words(p.to)} over ${words(p.height)}, axes ${words(p.offset)} apart, ${face}`;
  }
  return `${words(p.width)} wide x ${words(p.depth)} deep to ${words(p.diameter)} round over ${words(p.height)}, its centre ${words(p.offset[0])} to the right and ${words(p.offset[1])} to the far side, ${face}`;
}
