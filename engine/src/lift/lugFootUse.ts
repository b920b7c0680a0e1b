import { cross, dot, unit } from '../numeric/vector.ts'
import { type Answer, found, given, knownOr, largestOf, leastOf, stated } from '../working/answer.ts'
import { unitOf } from './attitudes.ts'
import type { Attitude, LoadedLeg } from './loadedRig.ts'
import type { Lug } from './lug.ts'
import {
  filletLength,
  filletUseByAisc,
  filletUseByEurocode,
  footUseByBth,
  footUseByEurocode,
  parentUse,
  pullAlong,
  weldNormal,
} from './lugFoot.formulas.ts'
import type { Pick } from './pick.ts'
import type { HangingPoint } from './rig.ts'
import { BREAKING_FACTOR, byRules, DESIGN_FACTOR, GAMMA_M0, GAMMA_M2, LOAD_FACTOR, unchosen } from './structure.ts'

/** A lug where it stands, with the legs that pull it. */
interface LegsOnLug {
  point: HangingPoint
  lug: Lug
  /** Of the lug in the file. */
  at: string
  pull: Answer<'N'>
  legs: readonly LoadedLeg[]
}

/** With its pull at every attitude of the leg; several legs at one point are taken in the direction of the first. */
export interface PulledLug extends LegsOnLug {
  pulls: readonly PullAt[]
}

/** The pull at one attitude, taken apart along the axes of the lug; undefined where no pose says how the leg hangs. */
export interface PullAt {
  parts: Parts
  attitude: Attitude | undefined
}

export function pulledLug(on: LegsOnLug): PulledLug {
  const all = on.legs[0]?.attitudes ?? []
  const parts = partsOf(on)
  const attitudes = all.length === 0 ? [undefined] : all
  return { ...on, pulls: attitudes.map((attitude) => ({ attitude, parts: parts(attitude) })) }
}
/** Pull along the lug, across it in its plane, and out of it. */
interface Parts {
  F_s: Answer<'N'>
  F_c: Answer<'N'>
  F_n: Answer<'N'>
}

export type Use = (pulled: PulledLug, parts: Parts) => Answer<'1'>

/** A use with the attitude in which it is largest, in words. */
export interface Asked {
  use: Answer<'1'>
  when: string
}

/** The attitude with the largest use, and that use. */
export function worst(pulled: PulledLug, use: Use): Asked {
  const uses = pulled.pulls.map(({ parts, attitude }) => ({ use: use(pulled, parts), attitude }))
  const open = uses.find(({ use: u }) => u.value === undefined)
  const most = open ?? uses.reduce((a, b) => ((b.use.value as number) > (a.use.value as number) ? b : a))
  const { attitude } = most
  return {
    use: most.use,
    when: attitude === undefined ? 'Direction of the pull not known.' : `Worst ${attitude.label}.`,
  }
}

/** Least share of a pull that is taken out of plane. */
const LEAST_SIDE = stated('1', 0.05, '5 % of the pull out of plane at the least (common practice, no source)')
const NONE = stated('1', 0, 'none at the least')

/** The pull at an attitude, along the axes of the lug. */
function partsOf({ lug, at, pull, legs }: LegsOnLug): (attitude: Attitude | undefined) => Parts {
  const stands = unitOf(lug.stands)
  const axis = unitOf(lug.axis)
  const axes = stands === undefined || axis === undefined ? undefined : axesOf(stands, axis)
  const standing: Record<string, Answer> = {
    ...(stands === undefined ? { 'how the lug stands': given('1', `${at}/stands`, undefined) } : {}),
    ...(axis === undefined ? { 'axis of the pin': given('1', `${at}/axis`, undefined) } : {}),
  }
  const directions: Record<string, Answer> = Object.fromEntries(
    [...(lug.stands ?? []), ...(lug.axis ?? [])].map((k, i) => [`direction ${i + 1}`, k]),
  )
  const known = { ...standing, ...directions }
  const unknown = { ...standing, 'length of the leg': legs[0]?.leg.length ?? given('m', at, undefined), ...directions }
  return (attitude) => {
    const cosine = (along: 's' | 'c' | 'n'): Answer<'1'> =>
      found({
        unit: '1',
        value: attitude === undefined || axes === undefined ? undefined : dot(attitude.up, axes[along]),
        method: `direction of the leg ${attitude?.label ?? ''} in the axes of the lug`,
        inputs: attitude === undefined ? unknown : known,
        residuals: [],
      })
    const s = found({
      unit: '1',
      value: attitude?.share ?? 1,
      method: 'pull of the hook in this attitude over the largest that it has',
      inputs: {},
      residuals: [],
    })
    return {
      F_s: pullAlong.show({ T: pull, s, k: cosine('s'), q: NONE }),
      F_c: pullAlong.show({ T: pull, s, k: cosine('c'), q: NONE }),
      F_n: pullAlong.show({ T: pull, s, k: cosine('n'), q: LEAST_SIDE }),
    }
  }
}

function axesOf(stands: Parameters<typeof dot>[0], axis: Parameters<typeof dot>[0]) {
  const c = cross(axis, stands)
  return { s: stands, n: axis, c: Math.hypot(...c) > 0 ? unit(c) : c }
}

const reachOf = ({ lug, at }: LegsOnLug): Answer<'m'> => knownOr(lug.reach, 'm', `${at}/reach`)
export const footOf = ({ lug, at }: LegsOnLug): Answer<'m'> => knownOr(lug.foot, 'm', `${at}/foot`)

/** The plate at its foot, by both methods. */
export const footUse: Use = (pulled, parts) => {
  const { lug } = pulled
  const shape = { ...parts, h: reachOf(pulled), B: footOf(pulled), t: lug.plate }
  return largestOf('Use of the foot by two methods', '1', [
    {
      label: 'EN 1993-1-1',
      answer: footUseByEurocode.show({ ...shape, f_y: lug.yield, gamma_F: LOAD_FACTOR, gamma_M0: GAMMA_M0 }),
    },
    { label: 'ASME BTH-1', answer: footUseByBth.show({ ...shape, F_y: lug.yield, N_d: DESIGN_FACTOR }) },
  ])
}

/** Its weld by the rules of the project: a fillet by its throat, full penetration by the weaker of what it joins. */
export const weldUse =
  (pick: Pick): Use =>
  (pulled, parts) => {
    const { lug, at } = pulled
    if (lug.weld === undefined) return given('1', `${at}/weld`, undefined)
    if (lug.weld.kind === 'full penetration') return penetrationUse(pick, pulled, parts)
    const a = knownOr(lug.weld.throat, 'm', `${at}/weld/throat`)
    const L = filletLength.show({ l: lug.weld.length ?? footOf(pulled), a })
    const n = weldNormal.show({ ...parts, h: reachOf(pulled), L, t: lug.plate })
    const line = { n, F_c: parts.F_c, F_n: parts.F_n, L, a }
    return byRules<Answer<'1'>>(pick, {
      European: () =>
        filletUseByEurocode.show({
          ...line,
          f_u: weakerOf(pulled, 'ultimate'),
          beta_w: correlationOf(weakerOf(pulled, 'ultimate')),
          gamma_M2: GAMMA_M2,
          gamma_F: BREAKING_FACTOR,
        }),
      US: () =>
        filletUseByAisc.show({
          ...line,
          F_EXX: knownOr(lug.weld?.metal, 'Pa', `${at}/weld/metal`),
          N_d: DESIGN_FACTOR,
        }),
      open: unchosen,
    })
  }

function penetrationUse(pick: Pick, pulled: PulledLug, parts: Parts): Answer<'1'> {
  const shape = { ...parts, h: reachOf(pulled), B: footOf(pulled), t: pulled.lug.plate }
  const yields = weakerOf(pulled, 'yield')
  return byRules<Answer<'1'>>(pick, {
    European: () => footUseByEurocode.show({ ...shape, f_y: yields, gamma_F: LOAD_FACTOR, gamma_M0: GAMMA_M0 }),
    US: () => footUseByBth.show({ ...shape, F_y: yields, N_d: DESIGN_FACTOR }),
    open: unchosen,
  })
}

/** The weaker of the lug and what it stands on. */
function weakerOf({ lug, at }: PulledLug, strength: 'yield' | 'ultimate'): Answer<'Pa'> {
  const under =
    lug.parent === undefined
      ? given('Pa', `${at}/parent`, undefined)
      : knownOr(lug.parent[strength], 'Pa', `${at}/parent/${strength}`)
  return leastOf('Weaker of lug and plate', 'Pa', [
    { label: 'lug', answer: knownOr(lug[strength], 'Pa', `${at}/${strength}`) },
    { label: 'plate under it', answer: under },
  ])
}

/** Correlation factors by tensile strength: the steels of table 4.1 in their order. */
const CORRELATION: readonly (readonly [most: number, factor: number, steel: string])[] = [
  [360e6, 0.8, 'S235'],
  [430e6, 0.85, 'S275'],
  [510e6, 0.9, 'S355'],
  [Number.POSITIVE_INFINITY, 1, 'S420 and S460'],
]

function correlationOf(ultimate: Answer<'Pa'>): Answer<'1'> {
  const f_u = ultimate.value
  const row = CORRELATION.find(([most]) => (f_u ?? 0) <= most) as (typeof CORRELATION)[number]
  return found({
    unit: '1',
    value: row[1],
    method: `β_w of ${row[2]} by its tensile strength: EN 1993-1-8 table 4.1 (from memory)`,
    inputs: { f_u: ultimate },
    residuals: [],
  })
}

/** The plate under it: elastic, by the factor of the project's rules. */
export const plateUse =
  (pick: Pick): Use =>
  (pulled, parts) => {
    const { lug, at } = pulled
    const { parent } = lug
    if (parent === undefined) return given('1', `${at}/parent`, undefined)
    return parentUse.show({
      ...parts,
      h: reachOf(pulled),
      L: footOf(pulled),
      t: lug.plate,
      t_p: parent.thickness,
      b: knownOr(parent.span, 'm', `${at}/parent/span`),
      f_y: parent.yield,
      k: byRules<Answer<'1'>>(pick, { European: () => LOAD_FACTOR, US: () => DESIGN_FACTOR, open: unchosen }),
    })
  }
