import { readFileSync } from 'node:fs';

/** Memory of a running process in MB: now, and at its peak so far. Null where the system does not tell (it is Linux that does). */
export function memoryOf(pid: number): { readonly now: number; readonly peak: number } | null {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const kilobytes = (field: string): number => Number(new RegExp(`^${field}:\\s+(\\d+) kB`, 'm').exec(status)![1]);
    return { now: kilobytes('VmRSS') / 1024, peak: kilobytes('VmHWM') / 1024 };
  } catch {
    return null;
  }
}
