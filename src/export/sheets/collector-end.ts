import { frameFrom } from '../../geometry/frame.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { dot } from '../../geometry/vec3.js';
import type { Collector } from '../../parts/collector/collector.js';
import { endView } from '../collector-outline.js';
import type { Doc } from '../paper/document.js';
import { arrow } from '../paper/tile-pages.js';
import { BODY, KEY, words } from '../paper/words.js';
import type { Block } from './block.js';
import { EDGE, placedView, THIN } from './header-picture.js';
import { scaleThatFits, scaleWords } from './scale.js';

/** The inlets as the tubes see them: `tubes` are the short names of what arrives, inlet by inlet. */
export function collectorEnd(c: Collector, tubes: readonly string[], width: number, height: number): Block {
  const { view, up } = endView(c);
  const g = c.geometry;
  const reach = g.ringRadius + g.outside;
  const k = scaleThatFits((s) => 2 * s * reach + 16 <= width && 2 * s * reach + 22 <= height);
  return {
    height,
    draw: (doc, [x, y]) => {
      const at: Vec2 = [x + width / 2, y + (height - 8) / 2];
      const o = c.plan.frame.origin;
      const placed = placedView(view, k, [dot(view.right, o), dot(view.up, o)], at);
      doc
        .lineWidth(THIN)
        .dash(4, { space: 1.2 })
        .circle(at[0], at[1], Math.max(g.ringRadius * k, 0.1))
        .stroke()
        .undash();
      g.cuts.forEach(({ frame }, i) => {
        const place = placed.to(frameFrom(c.plan.frame, frame).origin);
        drawInlet(doc, place, [g.outside * k, g.bore * k], String(i + 1), tubes[i] ?? '');
      });
      arrow(doc, [x + 6, y + 22], [x + 6, y + 12], 3);
      words(doc, up, x + 2, y + 9, BODY);
      words(doc, `Inlets, seen along the gas, ${scaleWords(k)}`, x + width / 2, y + height - 2, BODY, 'center');
    },
  };
}

function drawInlet(doc: Doc, [x, y]: Vec2, [outside, bore]: Vec2, number: string, tube: string): void {
  doc.lineWidth(EDGE).circle(x, y, outside).fillAndStroke('white', 'black').fillColor('black');
  doc.lineWidth(THIN).circle(x, y, bore).stroke();
  words(doc, number, x, y - 0.2, KEY, 'center', true);
  words(doc, tube, x, y + 4.4, BODY, 'center');
}
