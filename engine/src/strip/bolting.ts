import type { Joint } from '../model/index.ts'
import { type Answer, found, given, knownOr, stated } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import type { SiUnit } from '../working/unit.ts'
import { type Grade, gradeOf, headOf, holeOf, type Thread, threadOf } from './bolt-sizes.ts'
import {
  appliedLoad,
  frictionOfFactor,
  leastPreload,
  mostPreload,
  passTension,
  pitchDiameter,
  preloadByStrength,
  rootDiameter,
  stressArea,
  stressAreaInch,
  tensionerPressure,
  tensionWhilePulled,
  tensionWhileTurned,
  torqueByFactor,
  torqueByFriction,
} from './bolting.formulas.ts'

export type Bolts = NonNullable<Joint['bolts']>
export type Method = NonNullable<Bolts['method']>

/** What one bolt of a joint is tightened to, and what it goes through on the way. */
export interface Bolting {
  thread: Thread | undefined
  grade: Grade | undefined
  area: Answer<'m2'>
  /** Preload aimed at. */
  target: Answer<'N'>
  scatter: Answer<'1'>
  least: Answer<'N'>
  most: Answer<'N'>
  /** Highest tension while it is tightened, and the one allowed: 0.9 of yield. */
  highest: Answer<'N'>
  allowed: Answer<'N'>
  /** Of methods that turn the nut. */
  torque?: Answer<'N m'>
  /** Of a tensioner. */
  pressure?: Answer<'Pa'>
  passes: readonly Pass[]
}

/** One pass of tightening. */
export interface Pass {
  /** Of the preload aimed at. */
  share: number
  tension: Answer<'N'>
  torque?: Answer<'N m'>
  pressure?: Answer<'Pa'>
}

/** Share of yield that tightening may use. */
const YIELD_SHARE = stated('1', 0.9, 'share of yield while tightening (VDI 2230 Part 1, from memory)')

/** Preload, torque or pressure, and scatter of the bolts of one joint; each open where the file does not say enough. */
export function boltingOf(id: string, bolts: Bolts): Bolting {
  const size = sizeOf(id, bolts)
  const target = bolts.preload ?? preloadByStrength.show({ As: size.area, Rm: size.strength('nominal') })
  const scatter = bolts.scatter ?? scatterOf(id, bolts)
  const [least, most] = [leastPreload.show({ F0: target, s: scatter }), mostPreload.show({ F0: target, s: scatter })]
  const known = { thread: size.thread, grade: size.grade, area: size.area, target, scatter, least, most }
  return { ...known, ...(bolts.method === 'hydraulic tension' ? pulled : turned)(id, bolts, size, target, most) }
}

type Tightened = Pick<Bolting, 'highest' | 'allowed' | 'torque' | 'pressure' | 'passes'>

function pulled(id: string, bolts: Bolts, size: Size, target: Answer<'N'>, most: Answer<'N'>): Tightened {
  const A = knownOr(bolts.tensioner?.area, 'm2', at(id, 'tensioner', 'area'))
  const pressureAt = (F: Answer<'N'>) => ({ pressure: tensionerPressure.show({ F: applied(id, bolts, F), A }) })
  return {
    highest: highestOf(most, applied(id, bolts, target)),
    allowed: tensionWhilePulled.show({ As: size.area, Rp: size.strength('yield'), nu: YIELD_SHARE }),
    ...pressureAt(target),
    passes: passesOf(bolts, target, pressureAt),
  }
}

function turned(id: string, bolts: Bolts, size: Size, target: Answer<'N'>, most: Answer<'N'>): Tightened {
  const { d2, d3, pitch: P } = size
  const mu = bolts.friction ?? frictionFrom(id, bolts, size)
  const torqueAt = (F: Answer<'N'>) => ({ torque: torqueOf(bolts, F, mu, size) })
  return {
    highest: most,
    allowed: tensionWhileTurned.show({ d2, d3, P, mu, Rp: size.strength('yield'), nu: YIELD_SHARE }),
    ...torqueAt(target),
    passes: passesOf(bolts, target, torqueAt),
  }
}

/** Shares of the passes where the file gives none (common practice, no source). */
export const USUAL_PASSES = [0.3, 0.6, 1] as const

function passesOf(
  { passes }: Bolts,
  F0: Answer<'N'>,
  toolAt: (F: Answer<'N'>) => Pick<Pass, 'torque' | 'pressure'>,
): readonly Pass[] {
  const shares: readonly Answer<'1'>[] =
    passes ?? USUAL_PASSES.map((q) => stated('1', q, 'share of the pass (common practice, no source)'))
  return shares.map((q) => {
    const tension = passTension.show({ F0, q })
    return { share: q.value ?? 0, tension, ...toolAt(tension) }
  })
}

const at = (id: string, ...field: string[]): string => pointerOf('joints', id, 'bolts', ...field)

/** The higher of what the scatter may bring and what the tensioner applies. */
const highestOf = (most: Answer<'N'>, load: Answer<'N'>): Answer<'N'> => ({
  kind: 'largest',
  unit: 'N',
  title: 'highest tension while tightening',
  value: most.value === undefined || load.value === undefined ? undefined : Math.max(most.value, load.value),
  terms: [
    { label: 'over the scatter', answer: most },
    { label: 'applied by the tensioner', answer: load },
  ],
})

const applied = (id: string, { tensioner }: Bolts, F0: Answer<'N'>): Answer<'N'> =>
  appliedLoad.show({ F0, k: knownOr(tensioner?.transfer, '1', at(id, 'tensioner', 'transfer')) })

function torqueOf({ nutFactor, friction }: Bolts, F: Answer<'N'>, mu: Answer<'1'>, size: Size): Answer<'N m'> {
  const { d, d2, pitch: P, dw, dh } = size
  if (friction === undefined && nutFactor !== undefined) return torqueByFactor.show({ K: nutFactor, F, d })
  return torqueByFriction.show({ F, P, d2, mu, dw, dh })
}

/** Friction from the nut factor; open where neither is given. */
function frictionFrom(id: string, { nutFactor: K }: Bolts, { d, d2, pitch: P, dw, dh }: Size): Answer<'1'> {
  return K === undefined ? given('1', at(id, 'friction'), undefined) : frictionOfFactor.show({ K, d, P, d2, dw, dh })
}

interface Size {
  thread: Thread | undefined
  grade: Grade | undefined
  d: Answer<'m'>
  pitch: Answer<'m'>
  d2: Answer<'m'>
  d3: Answer<'m'>
  dw: Answer<'m'>
  dh: Answer<'m'>
  area: Answer<'m2'>
  strength: (of: 'nominal' | 'yield') => Answer<'Pa'>
}

function sizeOf(id: string, bolts: Bolts): Size {
  const thread = threadOf(bolts.thread)
  const grade = thread === undefined ? undefined : gradeOf(bolts.grade, thread.d)
  const d = given('m', at(id, 'thread'), thread?.d)
  const pitch = looked('m', thread?.pitch, `pitch of ${bolts.thread}${thread?.coarse ? ', coarse series' : ''}`, { d })
  return {
    thread,
    grade,
    d,
    pitch,
    d2: pitchDiameter.show({ d, P: pitch }),
    d3: rootDiameter.show({ d, P: pitch }),
    dw: bolts.head ?? tabled(id, 'head', d, thread && headOf(thread), 'face under a hexagon head, ISO 4014'),
    dh: bolts.hole ?? tabled(id, 'hole', d, thread && holeOf(thread), 'hole of the medium series, ISO 273'),
    area: (thread?.form === 'inch' ? stressAreaInch : stressArea).show({ d, P: pitch }),
    strength: (of) =>
      looked('Pa', grade?.[of], `${of === 'yield' ? 'yield' : 'tensile'} strength: ${grade?.source ?? ''}`, {
        grade: given('1', at(id, 'grade'), grade === undefined ? undefined : numberIn(bolts.grade)),
        size: d,
      }),
  }
}

/** A figure of a table, with what it was looked up by. */
const looked = <U extends SiUnit>(unit: U, value: number | undefined, method: string, by: Record<string, Answer>) =>
  found({ unit, value, method, inputs: by, residuals: [] })

/** A size of the table, or the open place of the field where the table has none. */
const tabled = (
  id: string,
  field: 'head' | 'hole',
  d: Answer<'m'>,
  value: number | undefined,
  what: string,
): Answer<'m'> =>
  value === undefined
    ? given('m', at(id, field), undefined)
    : looked('m', value, `${what}, by the size (from memory)`, { size: d })

const numberIn = (grade: string): number => Number(/\d+(\.\d+)?/.exec(grade)?.[0] ?? 0)

/** Scatter of a method to either side: two handbook tables as reproduced on a stored page (read). */
const SCATTER: Readonly<Record<Method, number>> = {
  torque: 0.25,
  'hydraulic tension': 0.15,
  'turn of nut': 0.15,
  elongation: 0.05,
}
const UNLUBRICATED = 0.35

/** Scatter by the method; of a torque wrench also by lubrication. */
export function scatterBy(method: Method, lubrication: Bolts['lubrication']): number {
  return method === 'torque' && lubrication === 'none' ? UNLUBRICATED : SCATTER[method]
}

function scatterOf(id: string, { method, lubrication }: Bolts): Answer<'1'> {
  const byOil = method === 'torque'
  const known = method !== undefined && (!byOil || lubrication !== undefined)
  const inputs: Record<string, Answer> = { method: given('1', at(id, 'method'), method === undefined ? undefined : 1) }
  if (byOil) inputs.lubrication = given('1', at(id, 'lubrication'), lubrication === undefined ? undefined : 1)
  return found({
    unit: '1',
    value: known ? scatterBy(method, lubrication) : undefined,
    method: `scatter of ${method ?? 'a method that is not named'}${byOil ? `, lubrication ${lubrication ?? 'not named'}` : ''}: two handbook tables, read as reproduced`,
    inputs,
    residuals: [],
  })
}
