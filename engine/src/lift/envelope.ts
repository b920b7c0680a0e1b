import { add, type Vec3, ZERO } from '../numeric/vector.ts'
import { type ElasticLeg, type Hang, type Hanging, type HungLoad, hangingFrom } from './hang.ts'

/** What may differ from plan, each way; lengths as shares, in the order of all legs: those of the piece, then those above. */
export interface Tolerances {
  /** Least and greatest weight on the legs, N. */
  weight: readonly [number, number]
  /** Half size of the box about the centre of gravity, body frame, m. */
  cog: Vec3
  lengths: readonly number[]
  /** Factors on every stiffness, tried at the worst corners. */
  stiffness: readonly number[]
}

/** One corner: signs of weight and of each coordinate and length, and a factor on the stiffness. */
export interface Corner {
  weight: number
  cog: Vec3
  lengths: readonly number[]
  stiffness: number
}

/** Worst over the corners of the tolerances. */
export interface Envelope {
  /** Greatest and least tension of each leg, N. */
  most: readonly number[]
  least: readonly number[]
  topMost: readonly number[]
  /** Greatest angle of each leg from the vertical, rad. */
  angles: readonly number[]
  tilt: number
  /** Corner of the greatest tension of each leg, and of the greatest tilt. */
  mostAt: readonly Corner[]
  tiltAt: Corner
  /** Pose of the greatest tilt. */
  tilted: Hanging
  /** Equilibria solved, and Newton's steps in all of them. */
  solved: number
  steps: number
  /** All corners of lengths and of the centre of gravity in plan; all of the lengths first; or those that slopes point to. */
  tried: 'all' | 'lengths first' | 'by slopes'
  /** Largest force that did not close, N. */
  residual: number
}

/** Up to so many uncertain lengths every corner is solved with every one in plan; up to so many, every corner of the lengths. */
const MOST_COMPLETE = 4
const MOST_LENGTHS = 8

/** What the corners are solved for: so many legs on the piece, so many above, and how it hangs at a corner near a known hang. */
export interface Cornered<H extends Hanging> {
  legs: number
  tops: number
  solve(corner: Corner, near: H): H
}

/** The same, of a piece under one hook with one spreader or none. */
export function envelopeOf(load: HungLoad, tolerances: Tolerances, nominal: Hang): Envelope {
  const solve = (corner: Corner, near: Hanging): Hanging => hangingFrom(cornerOf(load, tolerances, corner), near)
  return envelopeOver<Hanging>(
    { legs: load.legs.length, tops: load.spreader?.top.length ?? 0, solve },
    tolerances,
    nominal,
  )
}

/**
 * Worst tension of each leg and worst tilt over the corners of weight, centre of gravity and leg lengths: all corners of the
 * lengths and of the centre of gravity in plan at the greatest weight; at the worst corner of each result, both weights and
 * both heights of the centre of gravity; at the worst of those, the other stiffnesses. With five to eight uncertain lengths
 * all corners of these come first, and those in plan at the worst of each result; with more, the corners of the lengths that
 * the slopes of each result point to.
 */
export function envelopeOver<H extends Hanging>(cornered: Cornered<H>, tolerances: Tolerances, nominal: H): Envelope {
  const uncertain = tolerances.lengths.map((t, i) => (t > 0 ? i : -1)).filter((i) => i >= 0)
  const tried =
    uncertain.length <= MOST_COMPLETE ? 'all' : uncertain.length <= MOST_LENGTHS ? 'lengths first' : 'by slopes'
  const { solve } = cornered
  const worst = new Map<string, Worst>()
  const n = tolerances.lengths.length
  const signs =
    tried === 'by slopes'
      ? pointedSigns(uncertain, n, nominal, solve)
      : allSigns(uncertain.length).map((s) => spread(s, uncertain, n))
  const inPlan = planSigns(tolerances.cog)
  const corners = (tried === 'lengths first' ? [[0, 0] as const] : inPlan).flatMap(([x, y]) =>
    signs.map((lengths): Corner => ({ weight: 1, cog: [x, y, 0], lengths, stiffness: 1 })),
  )
  const results = resultsOf(cornered)
  const solved: Hanging[] = [nominal]
  const startOf = startsBy(cornered, nominal, n)
  const tryAll = (all: readonly Corner[]): void => {
    for (const corner of all) solved.push(take(worst, results, corner, solve(corner, startOf(corner))))
  }
  const worstCorners = (): Corner[] => [...new Set([...worst.values()].map((w) => w.corner))]
  tryAll(corners)
  if (tried === 'lengths first')
    tryAll(worstCorners().flatMap((corner) => inPlan.map(([x, y]): Corner => ({ ...corner, cog: [x, y, 0] }))))
  tryAll(worstCorners().flatMap((corner) => around(corner, tolerances)))
  tryAll(worstCorners().flatMap((corner) => stiffened(corner, tolerances)))
  return gathered(cornered, worst, solved, tried)
}

/** Where to begin a corner: as everything hangs with its centre of gravity at the same place in plan, and lengths as planned. */
function startsBy<H extends Hanging>({ solve }: Cornered<H>, nominal: H, lengths: number): (corner: Corner) => H {
  const known = new Map([['0 0', nominal]])
  return ({ cog: [x, y] }) => {
    const place = `${x} ${y}`
    const start =
      known.get(place) ??
      solve({ weight: 1, cog: [x, y, 0], lengths: new Array(lengths).fill(0), stiffness: 1 }, nominal)
    known.set(place, start)
    return start
  }
}

/** Results with their names: the larger the worse. */
type Results = readonly (readonly [name: string, of: (h: Hanging) => number])[]

interface Worst {
  value: number
  corner: Corner
  hanging: Hanging
}

const upTo = (n: number): number[] => Array.from({ length: n }, (_, i) => i)

const resultsOf = ({ legs, tops }: Pick<Cornered<Hanging>, 'legs' | 'tops'>): Results => [
  ...upTo(legs).map((i) => [`most ${i}`, (h: Hanging) => h.tensions[i] as number] as const),
  ...upTo(legs).map((i) => [`least ${i}`, (h: Hanging) => -(h.tensions[i] as number)] as const),
  ...upTo(tops).map((i) => [`top ${i}`, (h: Hanging) => h.topTensions[i] as number] as const),
  ['tilt', (h: Hanging) => h.tilt] as const,
]

function take(worst: Map<string, Worst>, results: Results, corner: Corner, hanging: Hanging): Hanging {
  for (const [name, of] of results) {
    const value = of(hanging)
    const known = worst.get(name)
    if (known === undefined || value > known.value) worst.set(name, { value, corner, hanging })
  }
  return hanging
}

function gathered(
  { legs, tops }: Pick<Cornered<Hanging>, 'legs' | 'tops'>,
  worst: ReadonlyMap<string, Worst>,
  solved: readonly Hanging[],
  tried: Envelope['tried'],
): Envelope {
  const at = (name: string): Worst => worst.get(name) as Worst
  return {
    most: upTo(legs).map((i) => at(`most ${i}`).value),
    least: upTo(legs).map((i) => -at(`least ${i}`).value),
    topMost: upTo(tops).map((i) => at(`top ${i}`).value),
    angles: upTo(legs).map((i) => Math.max(...solved.map((h) => h.angles[i] as number))),
    tilt: at('tilt').value,
    mostAt: upTo(legs).map((i) => at(`most ${i}`).corner),
    tiltAt: at('tilt').corner,
    tilted: at('tilt').hanging,
    solved: solved.length,
    steps: solved.reduce((sum, h) => sum + (h.steps ?? 0), 0),
    tried,
    residual: Math.max(...solved.map((h) => h.residual.force)),
  }
}

/** Signs of the centre of gravity in plan; a coordinate that is certain is taken once. */
const planSigns = (cog: Vec3): [number, number][] => {
  const along = (half: number): number[] => (half > 0 ? [-1, 1] : [0])
  return along(cog[0]).flatMap((x) => along(cog[1]).map((y): [number, number] => [x, y]))
}

const allSigns = (n: number): number[][] =>
  Array.from({ length: 2 ** n }, (_, k) => Array.from({ length: n }, (_, i) => ((k >> i) & 1 ? 1 : -1)))

const spread = (signs: readonly number[], at: readonly number[], n: number): number[] => {
  const all = new Array<number>(n).fill(0)
  for (const [k, i] of at.entries()) all[i] = signs[k] as number
  return all
}

/** A corner at both weights and both heights of the centre of gravity. */
function around(corner: Corner, { cog }: Tolerances): Corner[] {
  const [x, y] = corner.cog
  const heights = cog[2] > 0 ? [-1, 1] : [0]
  return [-1, 1].flatMap((weight) => heights.map((z): Corner => ({ ...corner, weight, cog: [x, y, z] })))
}

const stiffened = (corner: Corner, { stiffness }: Tolerances): Corner[] =>
  stiffness.filter((f) => f !== 1).map((f) => ({ ...corner, stiffness: f }))

/** For each leg's tension and for both tilts: the signs of the lengths that raise it most, by its slopes, and their opposite. */
function pointedSigns<H extends Hanging>(
  uncertain: readonly number[],
  n: number,
  nominal: H,
  solve: Cornered<H>['solve'],
): number[][] {
  const longer = uncertain.map((i) =>
    solve({ weight: 1, cog: ZERO, lengths: spread([1], [i], n), stiffness: 1 }, nominal),
  )
  const results = [
    ...nominal.tensions.map((_, i) => (h: Hanging) => h.tensions[i] as number),
    ...nominal.topTensions.map((_, i) => (h: Hanging) => h.topTensions[i] as number),
    (h: Hanging) => h.tiltX,
    (h: Hanging) => h.tiltY,
  ]
  const pointed = results.flatMap((of) => {
    const signs = longer.map((h) => (of(h) >= of(nominal) ? 1 : -1))
    return [signs, signs.map((s) => -s)]
  })
  return [...new Map(pointed.map((s) => [s.join(), s])).values()].map((s) => spread(s, uncertain, n))
}

function cornerOf(load: HungLoad, tolerances: Tolerances, { weight, cog, lengths, stiffness }: Corner): HungLoad {
  const changed = (leg: ElasticLeg, i: number): ElasticLeg => ({
    ...leg,
    length: leg.length * (1 + (lengths[i] ?? 0) * (tolerances.lengths[i] ?? 0)),
    stiffness: leg.stiffness * stiffness,
  })
  const moved: HungLoad = {
    ...load,
    weight: tolerances.weight[weight > 0 ? 1 : 0],
    cog: add(load.cog, [cog[0] * tolerances.cog[0], cog[1] * tolerances.cog[1], cog[2] * tolerances.cog[2]]),
    legs: load.legs.map(changed),
  }
  if (load.spreader === undefined) return moved
  const top = load.spreader.top.map((leg, i) => changed(leg, load.legs.length + i))
  return { ...moved, spreader: { ...load.spreader, top } }
}
