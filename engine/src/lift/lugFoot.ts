import { type Answer, found, given, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { STRENGTH_CAUTIONS } from './caution.ts'
import { leastThat, millimetresUp, usedUp } from './cure.ts'
import { dayOf } from './judged.ts'
import { lugFoot, lugParent, lugTested, lugWeld } from './kinds.ts'
import { type LoadedRig, named } from './loadedRig.ts'
import { type Lug, scaled } from './lug.ts'
import { type Asked, footOf, footUse, type PulledLug, plateUse, type Use, weldUse, worst } from './lugFootUse.ts'
import type { Pick } from './pick.ts'
import { WHOLE } from './structure.ts'

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

/** What would mend a lug that is too weak where it stands: the least plate, or the least width at its foot. */
function footCure(pulled: PulledLug, asked: Asked): string[] {
  const { lug } = pulled
  const foot = footOf(pulled)
  const wider = (k: number): Lug['foot'] => ({ ...(lug.foot ?? lug.plate), value: (foot.value as number) * k })
  return mended(
    pulled,
    asked,
    footUse,
    [
      ['a plate of at least', lug.plate, (k) => ({ ...lug, plate: scaled(lug.plate, k) })],
      ['a foot at least as wide as', foot, (k) => ({ ...lug, foot: wider(k) })],
    ],
    'legs that lean less out of its plane',
  )
}

/** Of a fillet the least throat; full penetration bears what the weaker of lug and plate bears. */
function weldCure(pick: Pick, pulled: PulledLug, asked: Asked): string[] {
  const { lug } = pulled
  const { weld } = lug
  const throat = weld?.throat
  if (weld === undefined || throat === undefined || weld.kind === 'full penetration')
    return mended(pulled, asked, weldUse(pick), [], 'a thicker plate, a wider foot, or stronger steel')
  return mended(
    pulled,
    asked,
    weldUse(pick),
    [['a throat of at least', throat, (k) => ({ ...lug, weld: { ...weld, throat: scaled(throat, k) } })]],
    'a longer weld, or full penetration',
  )
}

/** Of the plate under a lug the least thickness. */
function parentCure(pick: Pick, pulled: PulledLug, asked: Asked): string[] {
  const { lug } = pulled
  const { parent } = lug
  if (parent === undefined) return []
  const thicker = (k: number): Lug => ({ ...lug, parent: { ...parent, thickness: scaled(parent.thickness, k) } })
  return mended(
    pulled,
    asked,
    plateUse(pick),
    [['a plate of at least', parent.thickness, thicker]],
    'a stiffener under the lug',
  )
}

type Larger = readonly [words: string, length: Answer<'m'>, of: (factor: number) => Lug]

/** How often a strength is used, in which attitude, which length made larger by itself would do, and what else. */
function mended(pulled: PulledLug, asked: Asked, use: Use, lengths: readonly Larger[], otherwise: string): string[] {
  if (asked.use.value === undefined || asked.use.value <= 1) return []
  const bears = (lug: Lug): boolean => (worst({ ...pulled, lug }, use).use.value ?? Number.POSITIVE_INFINITY) <= 1
  const enough = lengths.flatMap(([words, length, of]) => {
    const factor = leastThat((k) => bears(of(k)))
    return factor === undefined ? [] : [`${words} ${millimetresUp(length, factor)}`]
  })
  const larger = enough.length === 0 ? '' : `${enough.join(', or ')} would bear it; else `
  return usedUp(asked.use, `${asked.when.replace(/^W/, 'w').replace(/\.$/, '')}; ${larger}${otherwise}`)
}

/** Whether the welds of all lugs of a rig, and the plates under them, were tested and passed. */
export function testedCheck(pick: Pick, rig: LoadedRig, lugs: readonly PulledLug[]): Check[] {
  if (lugs.length === 0) return []
  const tests = lugs.flatMap(({ lug, at, point }) => [
    { of: `weld of ${point.id}`, at: `${at}/weld/ndt`, test: lug.weld?.ndt },
    { of: `plate under ${point.id}`, at: `${at}/parent/ndt`, test: lug.parent?.ndt },
  ])
  const missing = tests.filter(({ test }) => test === undefined)
  const { day } = dayOf(pick)
  const failed = tests.filter(({ test }) => test?.passed === false)
  const later = tests.filter(({ test }) => day !== undefined && test?.on !== undefined && test.on > day)
  const wrong = new Set([...failed, ...later]).size
  return [
    check({
      kind: lugTested,
      ...named(pick, rig, 'lugs'),
      demand: found({
        unit: '1',
        value: wrong,
        method: 'welds of lugs and plates under them whose test did not pass, or is of a day after the lift',
        inputs: wrong > 0 ? {} : Object.fromEntries(missing.map(({ of, at }) => [of, given('1', at, undefined)])),
        residuals: [],
      }),
      capacity: stated('1', 0, 'none allowed'),
      cautions: STRENGTH_CAUTIONS,
      found: [
        ...failed.map(
          ({ of, test }) => `${of}: ${test?.method} did not pass; mend it and test it again, or lift by another lug`,
        ),
        ...later.map(({ of, test }) => `${of}: tested on ${test?.on}, the lift is on ${day}; test it before`),
      ],
    }),
  ]
}
