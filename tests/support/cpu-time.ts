/**
 * Milliseconds of this process's own time that work takes. What else the machine does is not counted, so a bound on it
 * holds on a busy one, where the clock on the wall goes on while the process waits for its turn.
 */
export function cpuTime(work: () => unknown): number {
  const start = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}
