/**
 * Processor time of this process so far, s, its collector of garbage and its compiler included: what other programs do at the same
 * time moves it far less than the clock.
 */
export function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}
