import type { BoltUpJoint, BoltUpStep } from '../../strip/index.ts'
import type { Answer } from '../../working/answer.ts'
import { type Check, countVerdicts } from '../../working/check.ts'
import { showNumber, type UnitSystem } from '../../working/quantity.ts'
import { DEFERRAL, INVENTED } from '../sheet/cautions.ts'
import { figure, OPEN } from '../sheet/figures.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'
import { type SheetCheck, sheetChecks, summaryOf } from '../sheet/sheetChecks.ts'
import type { SheetStages } from '../sheet/subject.ts'

/** Everything that the sheet of one step of the return says of its bolts, as plain data. */
export interface BoltUpSheet {
  step: string
  title: string
  /** What comes back at the step. */
  piece: string
  project: string
  /** Its place on the return, from 1, and of how many steps that close joints. */
  place: readonly [number, number]
  units: UnitSystem
  blocks: readonly BoltUpBlock[]
  /** Joints that the step closes in another way. */
  others: readonly string[]
  summary: string
  fails: boolean
  deferral: string
  notice: string
}

/** One joint: what is put in, how far it is tightened, in what order, and what is ticked. */
export interface BoltUpBlock {
  joint: string
  /** Names of the parts that it holds. */
  between: string
  /** So many bolts of a size and grade, in a few words. */
  bolts: string
  count: number
  /** Diameter of a bolt, m; unknown where the thread is not read. */
  diameter: number | undefined
  facts: readonly { name: string; words: string }[]
  /** What the tool is set to. */
  tool: 'torque' | 'pressure of the tensioner'
  passes: readonly BoltUpPass[]
  places: BoltUpJoint['places']
  strokes: BoltUpJoint['strokes']
  recheck: string
  checks: readonly SheetCheck[]
  cautions: readonly string[]
  /** Addresses of what is missing. */
  open: readonly string[]
}

export interface BoltUpPass {
  name: string
  share: string
  tension: string
  setting: string
}

/** Said of every joint that is bolted up. */
export const BOLTING_CAUTIONS: readonly string[] = [
  'The maker’s bolting instruction governs; where it and this sheet differ, stop and ask.',
  'Nobody in line with a bolt that is tensioned, or under a hose or pump at pressure.',
  'Tools and gauges by their tag, calibrated and in date; faces clean, flat and dry; threads treated as stated here and in no other way.',
  'One pass round all bolts before the next begins. A bolt that turns or stretches unlike its neighbours is taken out and asked about.',
]

/** Kinds of checks that speak of a joint's bolts. */
export const BOLTING = /^strip\.(bolts|flange|joint)\./

/** Checks of the stage that speak of one joint's bolts. */
export const boltingChecksOf = ({ strip }: Pick<SheetStages, 'strip'>, joint: string): Check[] =>
  strip.checks.filter((c) => c.subject.id === joint && BOLTING.test(c.kind))

/** The sheets of all steps that close joints with bolts, in the order of the return. */
export function boltUpSheets(stages: SheetStages, options: SheetOptions = {}): BoltUpSheet[] {
  const steps = stages.strip.boltUp.filter(({ joints }) => joints.length > 0)
  return steps.map((step, i) => sheetOfStep(stages, step, [i + 1, steps.length], options))
}

function sheetOfStep(
  stages: SheetStages,
  { step, piece, joints, others }: BoltUpStep,
  place: BoltUpSheet['place'],
  options: SheetOptions,
): BoltUpSheet {
  const { about, pieces, settings } = stages.model.project
  const units = options.units ?? settings.units
  const checks = joints.flatMap((j) => boltingChecksOf(stages, j.joint))
  return {
    step,
    title: `${pieces[piece]?.name ?? piece}, bolted up on its return`,
    piece: pieces[piece]?.name ?? piece,
    project: about.title,
    place,
    units,
    blocks: joints.map((joint) => blockOf(stages, joint, units)),
    others,
    summary: summaryOf(checks),
    fails: countVerdicts(checks).fail > 0,
    deferral: DEFERRAL,
    notice: about.invented ? INVENTED : '',
  }
}

function blockOf(stages: SheetStages, entry: BoltUpJoint, units: UnitSystem): BoltUpBlock {
  const { bolts, bolting } = entry
  const name = (id: string): string => stages.model.instances.byId.get(id)?.part.name ?? id
  return {
    joint: entry.joint,
    between: `${name(entry.between[0])} to ${name(entry.between[1])}`,
    bolts: `${bolts.count} × ${bolts.thread}, ${bolts.grade}`,
    count: bolts.count,
    diameter: bolting.thread?.d,
    facts: factsOf(entry, units),
    tool: bolting.pressure === undefined ? 'torque' : 'pressure of the tensioner',
    passes: bolting.passes.map(({ share, tension, torque, pressure }, i) => ({
      name: `${i + 1}`,
      share: `${showNumber(100 * share, 0)} %`,
      tension: figure(tension, units).text,
      setting: settingText(torque ?? pressure, units),
    })),
    places: entry.places,
    strokes: entry.strokes,
    recheck: entry.recheck,
    checks: sheetChecks(boltingChecksOf(stages, entry.joint), units),
    cautions: [...(entry.refused === undefined ? [] : [entry.refused]), ...entry.cautions],
    open: entry.missing,
  }
}

/** Scales on which a tool is set, finer than those on which a result is read. */
const SETTINGS: Readonly<
  Record<UnitSystem, Readonly<Record<'N m' | 'Pa', readonly [unit: string, factor: number, decimals: number]>>>
> = {
  SI: { 'N m': ['N m', 1, 0], Pa: ['MPa', 1e6, 1] },
  US: { 'N m': ['lbf ft', 1.3558179483314, 0], Pa: ['psi', 6894.757293168361, 0] },
}

function settingText(answer: Answer<'N m'> | Answer<'Pa'> | undefined, units: UnitSystem): string {
  if (answer?.value === undefined) return OPEN
  const [unit, factor, decimals] = SETTINGS[units][answer.unit]
  return `${showNumber(answer.value / factor, decimals)} ${unit}`
}

function factsOf({ bolts, bolting, access }: BoltUpJoint, units: UnitSystem): BoltUpBlock['facts'] {
  const { target, scatter, least, most, highest, allowed } = bolting
  const shown = (answer: Parameters<typeof figure>[0]): string => figure(answer, units).text
  const percent = scatter.value === undefined ? OPEN : `± ${showNumber(100 * scatter.value, 0)} %`
  const facts: [string, string][] = [
    [
      'bolts',
      `${bolts.count} × ${bolts.thread}, grade ${bolts.grade}${bolts.dowels > 0 ? `, ${bolts.dowels} dowels` : ''}`,
    ],
    ['old bolts', bolts.reused === undefined ? 'not stated' : bolts.reused ? 'go back in' : 'new bolts'],
    ['from', `${access}, ${bolts.tools ?? 1} at once`],
    ['method', bolts.method ?? OPEN],
    ['lubrication', lubricationText(bolts)],
    ['preload aimed at', shown(target)],
    ['scatter', percent],
    ['least, most', `${shown(least)}, ${shown(most)}`],
    ['most while tightened', `${shown(highest)} of ${shown(allowed)}`],
  ]
  return facts.map(([name, words]) => ({ name, words }))
}

function lubricationText({ lubrication, friction, nutFactor, method }: BoltUpJoint['bolts']): string {
  const words =
    lubrication ?? (method === 'hydraulic tension' ? 'not stated; the tensioner does not turn the nut' : OPEN)
  const shown = (value: number | undefined): string => (value === undefined ? OPEN : showNumber(value, 3))
  if (friction !== undefined) return `${words}, friction ${shown(friction.value)}`
  return nutFactor === undefined ? words : `${words}, nut factor ${shown(nutFactor.value)}`
}
