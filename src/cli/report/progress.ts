import pc from 'picocolors';
import type { Progress } from '../../pipeline.js';

/** Says on stderr what is being done, one line a step; silent when told to be. */
export const progressOn = (quiet: boolean): Progress =>
  quiet ? () => {} : (step) => void process.stderr.write(pc.dim(`${step} ...\n`));
