import * as z from 'zod';
import { signedArea } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { reverseOutline } from '../../geometry/outline/transform.js';
import { DEFAULTS } from '../defaults.js';
import type { Lengths } from '../fields/length-field.js';
import { numberField } from '../fields/number-field.js';
import { tracedFileFields } from '../fields/trace.js';
import { MOST_TRACED_POINTS } from '../limits.js';
import { parseLength } from '../units.js';
import type { PortShape } from './port-shape.js';
import { tracedFault, tracedSize } from './traced-outline.js';

/** A port's shape that stands in a file, before that is read. Lengths in mm, angles in degrees. */
export interface TracedFile {
  readonly file: string;
  readonly unit: 'mm' | 'in' | null;
  readonly layer: string | null;
  /** Number from 1 in the order of the file, or a point of the file, mm. */
  readonly contour: number | readonly [number, number] | null;
  readonly at: readonly [number, number] | null;
  readonly rotation: number;
  readonly mirror: boolean;
  readonly heal: number;
  readonly fit: number;
}

/** A traced port: its corners about the port's centre, in either sense, sides lines or arcs; or the file that has it. */
export const traced = (lengths: Lengths) =>
  z
    .strictObject({
      kind: z.literal('traced'),
      points: z
        .array(
          z.tuple([
            lengths.coordinate('x'),
            lengths.coordinate('y'),
            numberField(
              'Bulge of the side to the next corner: tan(arc / 4), positive counter-clockwise, 1 a half circle',
              -1,
              1,
            ).optional(),
          ]),
        )
        .min(2)
        .max(MOST_TRACED_POINTS)
        .optional()
        .describe("Corners [x, y] or [x, y, bulge] about the port's centre; the outline closes by itself"),
      ...tracedFileFields(lengths),
    })
    .meta({ oneOf: [{ required: ['points'] }, { required: ['file'] }] })
    .describe('A port by its traced corners, or from a DXF or CSV.')
    .transform((shape, context): PortShape | { readonly trace: TracedFile } => {
      const refuse = (path: (string | number)[], message: string) => {
        context.addIssue({ code: 'custom', path, message });
        return z.NEVER;
      };
      const { kind, points, file, ...rest } = shape;
      if (file !== undefined) {
        if (points !== undefined) return refuse(['points'], 'give the points or the file they are in, not both');
        return { trace: fileOf(file, rest) };
      }
      if (points === undefined) return refuse(['points'], 'missing; list the corners, or name a DXF or CSV under file');
      const stray = Object.keys(rest).find((key) => rest[key as keyof typeof rest] !== undefined);
      if (stray !== undefined)
        return refuse([stray], `${stray} goes with a file; these points lie about the centre as they are`);
      const outline: Outline = { vertices: points.map(([x, y, bulge = 0]) => ({ x, y, bulge })) };
      const fault = tracedFault(outline, lengths.unit);
      if (fault !== null) return refuse(['points', ...fault.place], fault.message);
      return {
        outline: signedArea(outline) > 0 ? outline : reverseOutline(outline),
        words: `traced ${tracedSize(outline)}, ${points.length} corners`,
      };
    });

const millimetresOf = (text: string): number => parseLength(text, 'mm')!;

type FileFields = z.output<z.ZodObject<ReturnType<typeof tracedFileFields>>>;

const fileOf = (file: string, f: Omit<FileFields, 'file'>): TracedFile => ({
  file,
  unit: f.unit ?? null,
  layer: f.layer ?? null,
  contour: f.contour ?? null,
  at: f.at ?? null,
  rotation: f.rotation ?? DEFAULTS.trace.rotation,
  mirror: f.mirror ?? DEFAULTS.trace.mirror,
  heal: f.heal ?? millimetresOf(DEFAULTS.trace.heal),
  fit: f.fit ?? millimetresOf(DEFAULTS.trace.fit),
});
