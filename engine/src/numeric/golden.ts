const RATIO = (Math.sqrt(5) - 1) / 2

/** Where something is greatest, and what it is there. */
export interface Greatest<T> {
  at: number
  value: T
}

/**
 * Where something with one peak between two places is greatest, by golden section: each round keeps one of its two values,
 * and what is left is 0.618 as wide. It need not be smooth.
 *
 * @param height what is compared; equal heights go to the greater place
 * @param sections rounds: n of them leave 0.618ⁿ of the width
 * @returns the better of the last two places
 */
export function goldenSection<T>(
  of: (at: number) => T,
  height: (value: T) => number,
  { from, to, sections }: { from: number; to: number; sections: number },
): Greatest<T> {
  let a = from
  let b = to
  let c = lookedAt(of, b - RATIO * (b - a))
  let d = lookedAt(of, a + RATIO * (b - a))
  for (let k = 0; k < sections; k++) {
    if (height(c.value) > height(d.value)) {
      b = d.at
      d = c
      c = lookedAt(of, b - RATIO * (b - a))
    } else {
      a = c.at
      c = d
      d = lookedAt(of, a + RATIO * (b - a))
    }
  }
  return height(c.value) > height(d.value) ? c : d
}

const lookedAt = <T>(of: (at: number) => T, at: number): Greatest<T> => ({ at, value: of(at) })
