import type { Cradle, Ground } from '../model/index.ts'
import { solvedPositive } from '../numeric/symmetric.ts'
import {
  type Answer,
  found,
  given,
  knownOr,
  largestOf,
  leastOf,
  type Residual,
  stated,
  sumOf,
} from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { SOIL } from './caution.ts'
import { concreteBearing } from './cradle.formulas.ts'
import { restingOn } from './decision.ts'
import { aheadLoad } from './jack.formulas.ts'
import * as kinds from './kinds.ts'
import { meanPressure, rectangleArea } from './pad.formulas.ts'
import type { Remainder, Resting } from './remainder.ts'
import { designStress } from './ring.formulas.ts'
import { burstingCheck } from './splitting.ts'
import { weight } from './weight.ts'

type Jacking = NonNullable<Cradle['jacking']>

/** What one jack carries while the shield is raised on all of them. */
export interface JackLoad {
  id: string
  /** Middle of the jack, site frame. */
  at: readonly [Answer<'m'>, Answer<'m'>]
  /** All points at one height: the larger and the smaller of as found and as returned. */
  most: Answer<'N'>
  least: Answer<'N'>
  /** What it takes when it runs ahead by the tolerance, and what it loses at the worst of one ahead and itself behind. */
  ahead: Answer<'N'>
  lost: Answer<'N'>
}

type Plan = readonly [number, number]

/**
 * How a rigid body stands on points of equal stiffness.
 *
 * @param points plan of the points, m; three at least, not in one line
 * @returns `shares`: of the weight, for a centre of gravity in plan, m; they add up to 1 and may be negative. `leverage`: how far
 * the plane through the points follows point i when point j is raised by 1; its rows add up to 1.
 *
 * Source: derived, plane of least squares.
 */
export function standingOn(points: readonly Plan[], cog: Plan): { shares: number[]; leverage: number[][] } {
  const rows = points.map(([x, y]) => [1, x - cog[0], y - cog[1]])
  const product = [0, 1, 2].map((a) =>
    [0, 1, 2].map((b) => rows.reduce((sum, r) => sum + (r[a] as number) * (r[b] as number), 0)),
  )
  const planes = rows.map((row) => solvedPositive(product, row))
  const along = (plane: readonly number[] | undefined, row: readonly number[]): number =>
    plane === undefined ? Number.NaN : row.reduce((sum, r, k) => sum + r * (plane[k] as number), 0)
  return {
    // seen from the centre of gravity: force 1, no moment
    shares: planes.map((plane) => along(plane, [1, 0, 0])),
    leverage: planes.map((plane) => rows.map((row) => along(plane, row))),
  }
}

const METHOD =
  'rigid body on points of equal stiffness, all at one height: the plane of least squares through the points; ΣN and ΣM close'

/** Load of each jack, for what stands on them. */
export function jackLoads({ points, stiffness, apart }: Jacking, resting: Remainder): JackLoad[] {
  const ids = Object.keys(points)
  const at = Object.values(points).map((p) => p.at)
  const plan = at.map(([x, y]): Plan => [x.value as number, y.value as number])
  const places = Object.fromEntries(at.flatMap((p, i) => p.map((v, k) => [`${ids[i]}, ${'xy'[k]}`, v])))
  const states = (['found', 'returned'] as const).map((state) => ({
    label: `as ${state}`,
    loads: loadsOn(plan, resting[state], places),
  }))
  const { leverage } = standingOn(plan, plan[0] as Plan)
  const step = {
    k: knownOr(stiffness, 'N/m', '/cradle/jacking/stiffness'),
    d: knownOr(apart, 'm', '/cradle/jacking/apart'),
  }
  const moved = (h: number): Answer<'N'> =>
    ids.length === 3
      ? stated('N', 0, 'three points: the body follows')
      : aheadLoad.show({ ...step, h: stated('1', Math.min(1, h), 'plane of least squares through the points') })
  return ids.map((id, i) => {
    const loads = states.map((state) => ({ label: state.label, answer: state.loads[i] as Answer<'N'> }))
    const [own, others] = [leverage[i]?.[i] as number, (leverage[i] as number[]).filter((_, j) => j !== i)]
    return {
      id,
      at: at[i] as JackLoad['at'],
      most: largestOf(`load of jack ${id}`, 'N', loads),
      least: leastOf(`load of jack ${id}`, 'N', loads),
      ahead: moved(own),
      // itself behind, or another ahead, which takes from it as far as the plane follows there
      lost: moved(1 - Math.max(1 - own, ...others)),
    }
  })
}

function loadsOn(plan: readonly Plan[], { design, x, y }: Resting, places: Record<string, Answer>): Answer<'N'>[] {
  const W = weight(design)
  const known = W.value !== undefined && x.value !== undefined && y.value !== undefined
  const shares = known ? standingOn(plan, [x.value as number, y.value as number]).shares : undefined
  const loads = shares?.map((share) => share * (W.value as number))
  const residuals =
    loads === undefined ? [] : residualsOf(plan, loads, W.value as number, [x.value as number, y.value as number])
  return plan.map((_, i) =>
    found({
      unit: 'N',
      value: loads?.[i],
      method: METHOD,
      inputs: { weight: W, 'centre of gravity, x': x, 'centre of gravity, y': y, ...places },
      residuals,
    }),
  )
}

function residualsOf(plan: readonly Plan[], loads: readonly number[], W: number, [x, y]: Plan): Residual[] {
  const sum = (arm: (p: Plan) => number): number =>
    plan.reduce((total, p, i) => total + (loads[i] as number) * arm(p), 0)
  return [
    { title: 'ΣN less the weight', value: sum(() => 1) - W, unit: 'N', tolerance: 1e-6 * W },
    { title: 'ΣM along the drive', value: sum((p) => p[0] - x), unit: 'N m', tolerance: 1e-6 * W },
    { title: 'ΣM across the drive', value: sum((p) => p[1] - y), unit: 'N m', tolerance: 1e-6 * W },
  ]
}

interface JackingCase {
  cradle: Cradle
  jacking: Jacking
  ground: Ground | undefined
  jacks: readonly JackLoad[]
  near: number
}

/** Most loaded jack, one that might come free, the concrete under the plate, the shell above. Practice 66. */
export function jackingChecks({ cradle, jacking, ground, jacks, near }: JackingCase): Check[] {
  const pointer = '/cradle/jacking'
  const at = (field: string): string => `${pointer}/${field}`
  const factor = (name: 'ringConcrete' | 'ringLoad'): Answer<'1'> =>
    ground?.factors?.[name] ?? given('1', `/ground/factors/${name}`, undefined)
  const together = ({ id, most, ahead }: JackLoad): Answer<'N'> =>
    sumOf(`jack ${id}, ahead of the others by the tolerance`, 'N', [
      { label: 'all at one height', answer: most },
      { label: 'ahead of the others', answer: ahead },
    ])
  const heaviest = jacks.map((jack) => ({ label: jack.id, answer: together(jack) }))
  const N = largestOf('the heaviest jack', 'N', heaviest)
  const lightest = jacks.reduce((a, b) => (slackOf(b) < slackOf(a) ? b : a))
  const shared = {
    subject: { pointer, id: 'jacking', name: 'Jacks under the shield' },
    near,
    assumptions: [
      'Shield rigid, every point as stiff as the other; all of the weight on the jacks, and nothing sticks to the bed.',
      'One point ahead of the others by the synchronous tolerance, or behind them; pumps that share one pressure make it nothing on three groups.',
      ...(ground === undefined ? [] : [restingOn(ground, 'G10')]),
    ],
    cautions: [
      SOIL,
      'Packed as it rises, never on jacks alone; nobody under it; the machine maker confirms points and shell.',
    ],
  }
  return [
    check({ ...shared, kind: kinds.jackLoad, demand: N, capacity: knownOr(jacking.rated, 'N', at('rated')) }),
    check({ ...shared, kind: kinds.jackShell, demand: N, capacity: knownOr(jacking.shell, 'N', at('shell')) }),
    check({
      ...shared,
      kind: kinds.jackFree,
      title: `${kinds.jackFree.title}: ${lightest.id}`,
      demand: lightest.lost,
      capacity: lightest.least,
      found: [`${lightest.id} would come free: move points, or bring the synchronous tolerance down`],
    }),
    check({
      ...shared,
      kind: kinds.jackBearing,
      demand: designStress.show({
        gamma_F: factor('ringLoad'),
        sigma: meanPressure.show({
          P: N,
          A: rectangleArea.show({
            B: knownOr(jacking.pad?.[0], 'm', at('pad')),
            L: knownOr(jacking.pad?.[1], 'm', at('pad')),
          }),
        }),
      }),
      capacity: concreteBearing.show({ f_ck: cradle.strength, gamma_c: factor('ringConcrete') }),
    }),
    burstingCheck(ground, jacking, N, shared),
  ]
}

/** What is left on a jack at the worst; one of unknown load comes first. */
const slackOf = ({ least, lost }: JackLoad): number => (least.value ?? Number.NEGATIVE_INFINITY) - (lost.value ?? 0)
