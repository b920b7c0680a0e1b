/**
 * Places as near as can be to where they are wanted, at least a gap apart, in the order given: those that crowd are pushed
 * apart about their common middle (least squares, pools of neighbours joined until none crowd).
 *
 * @param wanted in rising order
 */
export function spread(wanted: readonly number[], gap: number): number[] {
  const pools: { count: number; middle: number }[] = []
  for (const place of wanted) {
    let pool = { count: 1, middle: place }
    for (let last = pools.at(-1); last !== undefined && crowds(last, pool, gap); last = pools.at(-1)) {
      pools.pop()
      pool = {
        count: last.count + pool.count,
        middle: (last.middle * last.count + pool.middle * pool.count) / (last.count + pool.count),
      }
    }
    pools.push(pool)
  }
  return pools.flatMap(({ count, middle }) =>
    Array.from({ length: count }, (_, k) => middle + (k - (count - 1) / 2) * gap),
  )
}

const crowds = (a: { count: number; middle: number }, b: { count: number; middle: number }, gap: number): boolean =>
  b.middle - a.middle < ((a.count + b.count) / 2) * gap - 1e-9
