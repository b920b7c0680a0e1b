import { cross, dot, unit } from '../numeric/vector.ts'
import { type Answer, found, given, knownOr, largestOf, leastOf, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { unitOf } from './attitudes.ts'
import { STRENGTH_CAUTIONS } from './caution.ts'
import { leastThat, millimetresUp, usedUp } from './cure.ts'
import { lugFoot, lugParent, lugTested, lugWeld } from './kinds.ts'
import { type Attitude, type LoadedLeg, type LoadedRig, named } from './loadedRig.ts'
import { type Lug, scaled } from './lug.ts'
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
import {
  BREAKING_FACTOR,
  byRules,
  DESIGN_FACTOR,
  GAMMA_M0,
  GAMMA_M2,
  LOAD_FACTOR,
  unchosen,
  WHOLE,
} from './structure.ts'

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

/** Foot, weld and plate under a lug, each at the attitude that asks most of it. */
export function lugFootChecks(pick: Pick, rig: LoadedRig, pulled: PulledLug): Check[] {
  const { id } = pulled.point
  const text = { near: pick.near, cautions: STRENGTH_CAUTIONS, capacity: WHOLE }
  const asked = {
    foot: worst(pulled, footUse),
    weld: worst(pulled, weldUse(pick)),
    parent: worst(pulled, plateUse(pick)),
  }
  return [
    check({
      kind: lugFoot,
      ...named(pick, rig, id),
      ...text,
      title: `${lugFoot.title}: ${id}`,
      demand: asked.foot.use,
      assumptions: [ELASTIC, SIDE, asked.foot.when],
      found: footCure(pulled, asked.foot),
    }),
    check({
      kind: lugWeld,
      ...named(pick, rig, id),
      ...text,
      title: `${lugWeld.title}: ${id}`,
      demand: asked.weld.use,
      assumptions: [ELASTIC, SIDE, asked.weld.when],
      found: weldCure(pick, pulled, asked.weld),
    }),
    check({
      kind: lugParent,
      ...named(pick, rig, id),
      ...text,
      title: `${lugParent.title}: ${id}`,
      demand: asked.parent.use,
      assumptions: [SIDE, asked.parent.when],
      found: parentCure(pick, pulled, asked.parent),
    }),
  ]
}

const ELASTIC = 'Elastic over the width of the foot; cheek plates are not counted there.'
const SIDE = 'At least 5 % of the pull acts out of the plane of the plate: common practice, no source.'

/** Pull along the lug, across it in its plane, and out of it. */
interface Parts {
  F_s: Answer<'N'>
  F_c: Answer<'N'>
  F_n: Answer<'N'>
}

type Use = (pulled: PulledLug, parts: Parts) => Answer<'1'>

/** A use with the attitude in which it is largest, in words. */
interface Asked {
  use: Answer<'1'>
  when: string
}

/** The attitude with the largest use, and that use. */
function worst(pulled: PulledLug, use: Use): Asked {
  const uses = pulled.pulls.map(({ parts, attitude }) => ({ use: use(pulled, parts), attitude }))
  const open = uses.find(({ use: u }) => u.value === undefined)
  const most = open ?? uses.reduce((a, b) => ((b.use.value as number) > (a.use.value as number) ? b : a))
  const { attitude } = most
  return {
    use: most.use,
    when: attitude === undefined ? 'Direction of the pull not known.' : `Worst ${attitude.label}.`,
  }
}

/** What would mend a lug that is too weak where it stands: the least plate, or the least width at its foot. */
function footCure(pulled: PulledLug, { use, when }: Asked): string[] {
  const { lug } = pulled
  const foot = footOf(pulled)
  return usedUp(
    use,
    `${worstWords(when)}; ${thickened(pulled, footUse, [
      ['a plate of at least', lug.plate, (k) => ({ ...lug, plate: scaled(lug.plate, k) })],
      [
        'a foot at least as wide as',
        foot,
        (k) => ({ ...lug, foot: { ...(lug.foot ?? lug.plate), value: (foot.value as number) * k } }),
      ],
    ])}, or legs that lean less out of its plane`,
  )
}

/** Of a fillet the least throat; full penetration bears what the weaker of lug and plate bears. */
function weldCure(pick: Pick, pulled: PulledLug, { use, when }: Asked): string[] {
  const { lug } = pulled
  const throat = lug.weld?.throat
  if (throat === undefined || lug.weld?.kind === 'full penetration')
    return usedUp(use, `${worstWords(when)}; a thicker plate, a wider foot, or stronger steel`)
  return usedUp(
    use,
    `${worstWords(when)}; ${thickened(pulled, weldUse(pick), [
      [
        'a throat of at least',
        throat,
        (k) => ({ ...lug, weld: { ...lug.weld, throat: scaled(throat, k) } as Lug['weld'] }),
      ],
    ])}, a longer weld, or full penetration`,
  )
}

/** Of the plate under a lug the least thickness. */
function parentCure(pick: Pick, pulled: PulledLug, { use, when }: Asked): string[] {
  const { lug } = pulled
  const { parent } = lug
  if (parent === undefined) return []
  return usedUp(
    use,
    `${worstWords(when)}; ${thickened(pulled, plateUse(pick), [
      [
        'a plate of at least',
        parent.thickness,
        (k) => ({ ...lug, parent: { ...parent, thickness: scaled(parent.thickness, k) } }),
      ],
    ])}, or a stiffener under the lug`,
  )
}

const worstWords = (when: string): string => when.replace(/^W/, 'w').replace(/\.$/, '')

type Larger = readonly [words: string, length: Answer<'m'>, of: (factor: number) => Lug]

/** Which length, made larger by itself, would bring a use down to one. */
function thickened(pulled: PulledLug, use: Use, lengths: readonly Larger[]): string {
  const cures = lengths.flatMap(([words, length, of]) => {
    const factor = leastThat((k) => (worst({ ...pulled, lug: of(k) }, use).use.value ?? Number.POSITIVE_INFINITY) <= 1)
    return factor === undefined ? [] : [`${words} ${millimetresUp(length, factor)} would bear it`]
  })
  return cures.length === 0 ? 'no larger one alone bears it' : cures.join(', ')
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
const footOf = ({ lug, at }: LegsOnLug): Answer<'m'> => knownOr(lug.foot, 'm', `${at}/foot`)

/** The plate at its foot, by both methods. */
const footUse: Use = (pulled, parts) => {
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
const weldUse =
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
const plateUse =
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

/** Whether the welds of all lugs of a rig, and the plates under them, were tested and passed. */
export function testedCheck(pick: Pick, rig: LoadedRig, lugs: readonly PulledLug[]): Check[] {
  if (lugs.length === 0) return []
  const tests = lugs.flatMap(({ lug, at, point }) => [
    { of: `weld of ${point.id}`, at: `${at}/weld/ndt`, test: lug.weld?.ndt },
    { of: `plate under ${point.id}`, at: `${at}/parent/ndt`, test: lug.parent?.ndt },
  ])
  const missing = tests.filter(({ test }) => test === undefined)
  const failed = tests.filter(({ test }) => test?.passed === false)
  return [
    check({
      kind: lugTested,
      ...named(pick, rig, 'lugs'),
      demand: found({
        unit: '1',
        value: failed.length,
        method: 'welds of lugs and plates under them whose test did not pass',
        inputs: Object.fromEntries(missing.map(({ of, at }) => [of, given('1', at, undefined)])),
        residuals: [],
      }),
      capacity: stated('1', 0, 'none allowed'),
      cautions: STRENGTH_CAUTIONS,
      found: failed.map(
        ({ of, test }) => `${of}: ${test?.method} did not pass; mend it and test it again, or lift by another lug`,
      ),
    }),
  ]
}
