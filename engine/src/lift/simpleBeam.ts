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

/** Statics of a beam on two supports. The moment is largest at a load, or where the shear passes through zero between two. */
export function simpleBeam(beam: SimpleBeam): SimpleBeamResult {
  const { L, w, loads } = beam
  let [total, right] = [w * L, (w * L) / 2]
  for (const { P, x } of loads) {
    total += P
    right += (P * x) / L
  }
  const left = total - right
  let [moment, at] = [0, 0]
  const look = (x: number): void => {
    const M = momentAt(beam, left, x)
    if (M > moment) [moment, at] = [M, x]
  }
  for (const { x } of loads) look(x)
  look(zeroAfter(beam, left, 0))
  for (const { x } of loads) look(zeroAfter(beam, left, x))
  return { left, right, moment, at, shear: Math.max(Math.abs(left), Math.abs(right)) }
}

function momentAt({ w, loads }: SimpleBeam, left: number, x: number): number {
  let M = left * x - (w * x * x) / 2
  for (const load of loads) M -= load.P * Math.max(0, x - load.x)
  return M
}

/** Where the shear passes through zero beyond a place, with the loads up to it on the beam; the place itself where it does not. */
function zeroAfter({ L, w, loads }: SimpleBeam, left: number, from: number): number {
  let on = 0
  for (const { P, x } of loads) if (x <= from) on += P
  const zero = w > 0 ? (left - on) / w : from
  return zero >= from && zero <= L ? zero : from
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
