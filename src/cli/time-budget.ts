/** True until a share (all when not named) of so many seconds from now has passed. */
export function timeBudget(seconds: number): (share?: number) => boolean {
  const start = performance.now();
  return (share = 1) => performance.now() < start + 1000 * seconds * share;
}
