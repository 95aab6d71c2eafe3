import { summaryOf } from './export/summary/summary.js';
import type { Summary } from './export/summary/summary-schema.js';
import { platesOf } from './parts/plates/plate.js';
import type { RoutedHeader } from './pipeline.js';

/** The summary of a header that was only checked: no collectors, no files. */
export const checkedSummary = (header: RoutedHeader): Summary =>
  summaryOf({ ...header, collectors: [], plates: platesOf(header.plan), alternatives: [], bill: null }, []);
