/** A load at a place from the left support, N and m. */
export interface PointLoad {
  P: number
  x: number
}

/** A beam on two supports with point loads and its own weight per length, N/m. */
export interface SimpleBeam {
  L: number
  w: number
  loads: readonly PointLoad[]
}

/** Reactions, the largest moment and where, and the largest shear. */
export interface SimpleBeamResult {
  left: number
  right: number
  moment: number
  at: number
  shear: number
}

/** Statics of a beam on two supports. */
export function simpleBeam(beam: SimpleBeam): SimpleBeamResult {
  const { L, w, loads } = beam
  const right = loads.reduce((sum, { P, x }) => sum + (P * x) / L, (w * L) / 2)
  const left = loads.reduce((sum, { P }) => sum + P, w * L) - right
  const momentAt = (x: number): number =>
    loads.reduce((sum, load) => sum - load.P * Math.max(0, x - load.x), left * x - (w * x * x) / 2)
  const worst = placesOf(beam, left)
    .map((x) => ({ x, M: momentAt(x) }))
    .reduce((a, b) => (b.M > a.M ? b : a))
  return { left, right, moment: worst.M, at: worst.x, shear: Math.max(Math.abs(left), Math.abs(right)) }
}

/** Where the moment can be largest: at each load, and where the shear passes through zero between two. */
function placesOf({ L, w, loads }: SimpleBeam, left: number): number[] {
  const xs = loads.map(({ x }) => x).sort((a, b) => a - b)
  const zeros = [0, ...xs].flatMap((from) => {
    const on = loads.reduce((sum, { P, x }) => sum + (x <= from ? P : 0), 0)
    const zero = w > 0 ? (left - on) / w : from
    return zero >= from && zero <= L ? [zero] : []
  })
  return [0, ...xs, ...zeros]
}

const STEPS = 80

/** Largest sag of it, m; the curve has one lowest place. */
export function simpleBeamSag(beam: SimpleBeam, EI: number): { sag: number; at: number } {
  let [from, to] = [0, beam.L]
  for (let i = 0; i < STEPS; i++) {
    const [a, b] = [from + (to - from) / 3, to - (to - from) / 3]
    if (sagAt(beam, EI, a) < sagAt(beam, EI, b)) from = a
    else to = b
  }
  const at = (from + to) / 2
  return { sag: sagAt(beam, EI, at), at }
}

/** Sag at a place: superposition of each load and of the own weight. */
export function sagAt({ L, w, loads }: SimpleBeam, EI: number, x: number): number {
  const own = (w * x * (L ** 3 - 2 * L * x * x + x ** 3)) / 24
  const total = loads.reduce((sum, { P, x: a }) => {
    const [y, b] = x <= a ? [x, L - a] : [L - x, a]
    return sum + (P * b * y * (L * L - b * b - y * y)) / (6 * L)
  }, own)
  return total / EI
}
