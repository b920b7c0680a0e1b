import { type Answer, found, GRAVITY, given, knownOr, stated, sumOf, type Term } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import { type GroupLine, groupLoads, worstOfLevel, worstOfLoss } from './group.ts'
import { weightOf } from './hook.formulas.ts'
import { hookUse, sharedWorst, turnShare } from './kinds.ts'
import type { Hooked } from './pick.ts'
import { lineLength, lineStiffness, meanSpeed, strokesOf } from './units.formulas.ts'

/** Strand units or winches that hold one hook, in one lift. */
export interface UnitGroup {
  hook: string
  kind: 'strand unit' | 'winch'
  /** What all of them hold: load that the rating counts, and the block. */
  weight: Answer<'N'>
  rated: Answer<'N'>
  /** Each with all strokes even. */
  units: readonly { id: string; load: Answer<'N'> }[]
  /** Most in one with strokes apart by what the control allows, and with any one unit lost. */
  level: Answer<'N'>
  lost: Answer<'N'>
  /** With one lost the block tips, because the hook lies outside of what is left. */
  tips: boolean
  /** Line that is left where it is shortest. */
  length: Answer<'m'>
  /** Strokes for the height hoisted, and the speed over them; of strand units. */
  strokes?: Answer<'1'>
  speed?: Answer<'m/s'>
}

export type Units = NonNullable<Hooked['hook']['units']>

const EVEN =
  'rigid block under the hook pin on elastic plumb lines, tension only: sinking and both tilts from ΣF and ΣM'
const LEVEL = `${EVEN}; strokes of any two apart by no more than the control allows, the worst signs for each unit`
const LOST = `${EVEN}; each unit lost in turn, statically; where the block then tips, one line may take everything`

/** The units of a hook under what it carries; undefined where it hangs from none. */
export function unitGroup(
  hooked: Hooked,
  demand: Answer<'kg'>,
  highest: Answer<'m'>,
  hoisted: number,
): UnitGroup | undefined {
  const { units } = hooked.hook
  if (units === undefined) return undefined
  const at = `${hooked.hookAt}/units`
  const weight = weightOf.show({ m: onLines(hooked, demand), g: GRAVITY })
  const length = lineLength.show({ z_head: knownOr(hooked.hook.head, 'm', `${hooked.hookAt}/head`), z_hook: highest })
  const k = lineStiffness.show({ EA: knownOr(units.stiffness, 'N', `${at}/stiffness`), L: length })
  const difference = knownOr(units.difference, 'm', `${at}/difference`)
  const lines = linesOf(units, k.value ?? 1)
  const where: Record<string, Answer> =
    lines.length === 0 ? { 'where its units are': given('m', `${at}/at`, undefined) } : {}
  const W = weight.value ?? 0
  const [even, level, lost] = [
    groupLoads(lines, W),
    worstOfLevel(lines, W, difference.value ?? 0),
    worstOfLoss(lines, W),
  ]
  const answer = (
    value: number | undefined,
    method: string,
    inputs: Record<string, Answer>,
    residual = even?.residual,
  ): Answer<'N'> =>
    found({
      unit: 'N',
      value,
      method,
      inputs: { weight, ...where, ...inputs, ...placesOf(units) },
      residuals: [
        { title: 'ΣF', value: residual?.force ?? 0, unit: 'N', tolerance: 1e-6 * W },
        { title: 'ΣM', value: residual?.moment ?? 0, unit: 'N m', tolerance: 1e-6 * W * REACH },
      ],
    })
  return {
    hook: hooked.hook.name,
    kind: units.kind,
    weight,
    rated: weightOf.show({ m: units.rated, g: GRAVITY }),
    units: Object.keys(units.at).map((id, i) => ({ id, load: answer(even?.loads[i], EVEN, {}) })),
    level: answer(
      level?.load,
      LEVEL,
      { 'stiffness of one line': k, 'difference of strokes': difference },
      level?.residual,
    ),
    lost: answer(lost?.load, LOST, {}, lost?.residual),
    tips: lost?.tips ?? false,
    length,
    ...paceOf(units, at, hoisted),
  }
}

/** Farthest that a moment is measured over, m. */
const REACH = 10

/** Strokes and speed of strand units. */
function paceOf(units: Units, at: string, hoisted: number): Pick<UnitGroup, 'strokes' | 'speed'> {
  if (units.kind !== 'strand unit') return {}
  const s = knownOr(units.stroke, 'm', `${at}/stroke`)
  return {
    strokes: strokesOf.show({ h: stated('m', hoisted, 'heights of the moves, up and down'), s }),
    speed: meanSpeed.show({
      s,
      w: knownOr(units.strokeSpeed, 'm/s', `${at}/strokeSpeed`),
      t: knownOr(units.regrip, 's', `${at}/regrip`),
    }),
  }
}

const linesOf = ({ at }: Units, stiffness: number): GroupLine[] =>
  Object.values(at).map(([x, y]) => ({ at: [x.value as number, y.value as number], stiffness, ahead: 0 }))

const placesOf = ({ at }: Units): Record<string, Answer> =>
  Object.fromEntries(
    Object.entries(at).flatMap(([id, [x, y]]) => [
      [`${id}, x from the hook`, x],
      [`${id}, y from the hook`, y],
    ]),
  )

/** Load on the lines: what the rating counts, and the block where the rating does not count it. */
function onLines({ hook, hookAt }: Hooked, demand: Answer<'kg'>): Answer<'kg'> {
  if (hook.basis.point !== 'below the block') return demand
  const block: Term<'kg'> = { label: 'block and links', answer: knownOr(hook.block, 'kg', `${hookAt}/block`) }
  return sumOf('On the lines', 'kg', [{ label: 'load that the rating counts', answer: demand }, block])
}

const HELD = new Set([hookUse.id, turnShare.id, sharedWorst.id])

/** Most that a hook's rating is held against in a lift: the whole load, or its worst share. */
export function largestDemand(checks: readonly Check[], hook: string): Answer<'kg'> | undefined {
  const held = checks.filter((c) => HELD.has(c.kind) && c.id.endsWith(`/${hook}`)).map((c) => c.demand as Answer<'kg'>)
  return held.find((d) => d.value === undefined) ?? held.sort((a, b) => (b.value as number) - (a.value as number))[0]
}
