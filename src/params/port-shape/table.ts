import * as z from 'zod';
import type { Lengths } from '../fields/length-field.js';
import { d } from './d.js';
import { oval } from './oval.js';
import { rectangle } from './rectangle.js';
import { round } from './round.js';
import { traced } from './traced.js';
import { trapezoid } from './trapezoid.js';

/** Every port shape a plan may name by its `kind`. A new shape is one file and one row here. */
export const portShapeField = (lengths: Lengths) =>
  z
    .discriminatedUnion('kind', [
      round(lengths),
      oval(lengths),
      rectangle(lengths),
      trapezoid(lengths),
      d(lengths),
      traced(lengths),
    ])
    .describe("Shape of the port on the face, in the head's x and y");
