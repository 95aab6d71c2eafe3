import { circleRim, rectangleRim } from '../../geometry/convex-rim.js';
import type { FabricatedPiece } from '../../params/plan.js';
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
          notes: [`Tube ${piece.od.toFixed(2)} x ${piece.wall.toFixed(2)} mm`],
        }),
      ];
    case 'pie_cut':
      return pieCutPatterns(named, piece, piece, layout);
    case 'saddle': {
      const host = { od: piece.hostOd, wall: piece.hostWall };
      return saddlePatterns({ ...named, branch: piece, host, angle: piece.angle, offset: piece.offset }, layout);
    }
    default:
      return [sheetPattern(piece, named)];
  }
}

type Sheet = Exclude<FabricatedPiece, { kind: 'mitre' | 'pie_cut' | 'saddle' }>;

function sheetPattern(piece: Sheet, named: Pick<SheetSpec, 'name' | 'title' | 'count'>): Pattern {
  const { thickness, material, height } = piece;
  const spec: SheetSpec = { ...named, thickness, material, notes: [sizeWords(piece)] };
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

const mm = (value: number): string => value.toFixed(2);

function sizeWords(p: Sheet): string {
  const face = `${p.measured} sizes`;
  if (p.kind === 'frustum') return `${mm(p.from)} to ${mm(p.to)} mm over ${mm(p.height)} mm, ${face}`;
  if (p.kind === 'eccentric') {
    return `${mm(p.from)} to ${mm(p.to)} mm over ${mm(p.height)} mm, axes ${mm(p.offset)} mm apart, ${face}`;
  }
  return `${mm(p.width)} wide x ${mm(p.depth)} mm deep to ${mm(p.diameter)} mm round over ${mm(p.height)} mm, its centre ${mm(p.offset[0])} mm to the right and ${mm(p.offset[1])} mm to the far side, ${face}`;
}
