import { readFileSync } from 'node:fs';

/** The plainest starter; run from the root of the project. */
export const SINGLE = readFileSync('templates/single.yaml', 'utf8');
