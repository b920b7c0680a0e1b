/** Density of the standard normal. */
export const normalDensity = (x: number): number => Math.exp(-(x * x) / 2) / Math.sqrt(2 * Math.PI)

/**
 * Distribution function of the standard normal, to about 1e-15.
 *
 * Source: series Φ(x) = ½ + φ(x)(x + x³/3 + x⁵/(3·5) + …), G. Marsaglia, Journal of Statistical Software 11(4) (2004), from
 * memory; continued fraction for the tails.
 */
export function normalCdf(x: number): number {
  if (x < -TAIL) return tail(-x)
  if (x > TAIL) return 1 - tail(x)
  let [sum, term] = [x, x]
  for (let i = 3; Math.abs(term) > 1e-17 * Math.abs(sum); i += 2) {
    term = (term * x * x) / i
    sum += term
  }
  return 0.5 + sum * normalDensity(x)
}

const TAIL = 5

/** 1 − Φ(x) for large x: φ(x)/(x + 1/(x + 2/(x + 3/(x + …)))). */
function tail(x: number): number {
  let below = x
  for (let k = 60; k >= 1; k--) below = x + k / below
  return normalDensity(x) / below
}

const NODES_FROM = -6
const NODES_PER_UNIT = 128
const NODE_VALUES = Float64Array.from({ length: -2 * NODES_FROM * NODES_PER_UNIT + 1 }, (_, i) =>
  normalCdf(NODES_FROM + i / NODES_PER_UNIT),
)
const NODE_SLOPES = NODE_VALUES.map((_, i) => normalDensity(NODES_FROM + i / NODES_PER_UNIT) / NODES_PER_UNIT)

/**
 * Distribution function of the standard normal from a table, for simulations: cubic between nodes whose values and slopes are
 * known, to 1e-9; the end of the table beyond six.
 */
export function tabledNormalCdf(x: number): number {
  const place = Math.min(NODE_VALUES.length - 1.000001, Math.max(0, (x - NODES_FROM) * NODES_PER_UNIT))
  const i = Math.floor(place)
  const t = place - i
  const from = NODE_VALUES[i] as number
  const slope = NODE_SLOPES[i] as number
  const slopeTo = NODE_SLOPES[i + 1] as number
  const rise = (NODE_VALUES[i + 1] as number) - from
  return from + t * (slope + t * (3 * rise - 2 * slope - slopeTo + t * (slope + slopeTo - 2 * rise)))
}

/**
 * Quantile of the standard normal, to 1.2e-9 relative (P. J. Acklam's rational approximation, from memory). Written out: a
 * simulation asks for it thousands of times in every run.
 */
export function normalQuantile(p: number): number {
  if (p < TAIL_SHARE) return lowerTail(p)
  if (p > 1 - TAIL_SHARE) return -lowerTail(1 - p)
  const q = p - 0.5
  const r = q * q
  const above =
    ((((-3.969683028665376e1 * r + 2.209460984245205e2) * r - 2.759285104469687e2) * r + 1.38357751867269e2) * r -
      3.066479806614716e1) *
      r +
    2.506628277459239
  const below =
    ((((-5.447609879822406e1 * r + 1.615858368580409e2) * r - 1.556989798598866e2) * r + 6.680131188771972e1) * r -
      1.328068155288572e1) *
      r +
    1
  return (above * q) / below
}

const TAIL_SHARE = 0.02425

function lowerTail(p: number): number {
  const q = Math.sqrt(-2 * Math.log(p))
  const above =
    ((((-7.784894002430293e-3 * q - 3.223964580411365e-1) * q - 2.400758277161838) * q - 2.549732539343734) * q +
      4.374664141464968) *
      q +
    2.938163982698783
  const below =
    (((7.784695709041462e-3 * q + 3.224671290700398e-1) * q + 2.445134137142996) * q + 3.754408661907416) * q + 1
  return above / below
}

/**
 * Chance that two standard normals with a correlation both stay below their limits.
 *
 * Φ₂(h, k; ρ) = Φ(h)Φ(k) + (1/2π)∫₀^asin ρ exp(−(h² + k² − 2hk sin t)/(2cos² t)) dt, by Gauss-Legendre quadrature on slices.
 * Source: R. L. Plackett, Biometrika 41 (1954), from memory. Good to 1e-8 for |ρ| ≤ 0.99.
 */
export function bothBelow(h: number, k: number, rho: number): number {
  const angle = Math.asin(rho)
  let sum = 0
  for (let slice = 0; slice < SLICES; slice++) {
    const middle = (angle * (slice + 0.5)) / SLICES
    const half = angle / (2 * SLICES)
    for (let i = 0; i < NODES.length; i++) {
      for (const side of [-1, 1]) {
        const t = middle + side * half * (NODES[i] as number)
        const c = Math.cos(t)
        sum += (WEIGHTS[i] as number) * half * Math.exp(-(h * h + k * k - 2 * h * k * Math.sin(t)) / (2 * c * c))
      }
    }
  }
  return normalCdf(h) * normalCdf(k) + sum / (2 * Math.PI)
}

const SLICES = 4
/** Five-point pairs of the ten-point Gauss-Legendre rule. */
const NODES = [0.14887433898163122, 0.4333953941292472, 0.6794095682990244, 0.8650633666889845, 0.9739065285171717]
const WEIGHTS = [0.29552422471475287, 0.26926671930999635, 0.21908636251598204, 0.1494513491505806, 0.06667134430868814]

/** Quantile of a triangular distribution with extremes a, b and mode m. */
export function triangularAt(u: number, a: number, m: number, b: number): number {
  const share = u * (b - a)
  return share < m - a ? a + Math.sqrt(share * (m - a)) : b - Math.sqrt((b - a - share) * (b - m))
}

/**
 * Extremes of the triangular distribution with a mode and its 10 % and 90 % quantiles: each extreme follows from the other by
 * a quadratic, in turn until neither moves.
 *
 * @throws never; with no spread the extremes are the quantiles
 */
export function extremesOf(p10: number, mode: number, p90: number): [number, number] {
  let [a, b] = [p10, p90]
  for (let round = 0; round < 200; round++) {
    const before = a + b
    // (p10 − a)² = 0.1 (b − a)(m − a) for a, then (b − p90)² = 0.1 (b − a)(b − m) for b
    a = mode - outward(mode - p10, b - mode)
    b = mode + outward(p90 - mode, mode - a)
    if (Math.abs(a + b - before) <= 1e-12 * (Math.abs(a) + Math.abs(b))) break
  }
  return [a, b]
}

/** Distance x of an extreme from the mode, when its quantile lies q from it and the other extreme y: (x − q)² = 0.1 (x + y) x. */
const outward = (q: number, y: number): number => {
  const half = (2 * q + 0.1 * y) / 1.8
  return half + Math.sqrt(Math.max(0, half * half - (q * q) / 0.9))
}

/** Least value of a sorted sample that at least a share p of it does not exceed. */
export const quantileOf = (sorted: ArrayLike<number>, p: number): number =>
  sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(p * sorted.length - 1e-9) - 1))] as number

/**
 * Interval that holds the p quantile with the confidence of z standard deviations, from order statistics: no distribution is
 * assumed. Ranks np ± z√(np(1−p)).
 */
export function quantileBand(sorted: ArrayLike<number>, p: number, z: number): [number, number] {
  const n = sorted.length
  const spread = z * Math.sqrt(n * p * (1 - p))
  const at = (rank: number): number => sorted[Math.min(n - 1, Math.max(0, rank))] as number
  return [at(Math.floor(n * p - spread) - 1), at(Math.ceil(n * p + spread) - 1)]
}

export const meanOf = (values: ArrayLike<number>): number => {
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += values[i] as number
  return sum / values.length
}

/**
 * Lower triangle L with L Lᵀ = the matrix of correlations; undefined when there is none, that is, when the correlations
 * contradict each other.
 */
export function choleskyOf(matrix: readonly (readonly number[])[]): number[][] | undefined {
  const lower: number[][] = matrix.map((row) => row.map(() => 0))
  for (let i = 0; i < matrix.length; i++) {
    for (let j = 0; j <= i; j++) {
      const [a, b] = [lower[i] as number[], lower[j] as number[]]
      let rest = matrix[i]?.[j] as number
      for (let k = 0; k < j; k++) rest -= (a[k] as number) * (b[k] as number)
      if (i === j) {
        if (rest <= 0) return undefined
        a[i] = Math.sqrt(rest)
      } else a[j] = rest / (b[j] as number)
    }
  }
  return lower
}
