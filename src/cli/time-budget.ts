/** True until so many seconds from now have passed. */
export function timeBudget(seconds: number): () => boolean {
  const end = performance.now() + 1000 * seconds;
  return () => performance.now() < end;
}
