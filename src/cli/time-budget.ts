/**
 * True until this process has worked for a share (all when not named) of so many seconds from now. The processor's time is counted and
 * not the clock's, so that a machine busy with something else gives the same routes.
 */
export function timeBudget(seconds: number): (share?: number) => boolean {
  const start = process.cpuUsage();
  return (share = 1) => {
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1e6 < seconds * share;
  };
}
