/** What a function gave, and the least time of several runs, ms: a busy machine only ever adds. */
export function timed<T>(runs: number, run: () => T): { value: T; milliseconds: number } {
  let least = Number.POSITIVE_INFINITY
  let value: T | undefined
  for (let i = 0; i < runs; i++) {
    const start = performance.now()
    value = run()
    least = Math.min(least, performance.now() - start)
  }
  return { value: value as T, milliseconds: least }
}

/** The least processor time of some repetitions, s: what others do on the machine counts less. */
export function timedOnProcessor<T>(runs: number, run: () => T): { value: T; seconds: number } {
  let least = Number.POSITIVE_INFINITY
  let value: T | undefined
  for (let i = 0; i < runs; i++) {
    const start = process.cpuUsage()
    value = run()
    const { user, system } = process.cpuUsage(start)
    least = Math.min(least, (user + system) / 1e6)
  }
  return { value: value as T, seconds: least }
}

/** Power with which time grows with size: 1 is proportional. */
export const growthExponent = (small: number, large: number, ratio: number): number =>
  Math.log(large / small) / Math.log(ratio)

/** All results computed, over every family. */
export const total = (computed: Readonly<Record<string, number>>): number =>
  Object.values(computed).reduce((sum, n) => sum + n, 0)
