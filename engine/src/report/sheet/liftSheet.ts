import {
  FITTING_CAUTIONS,
  LIFT_CAUTIONS,
  type LiftOutcome,
  type PivotHolding,
  READING_CAUTIONS,
  SHAFT_CAUTIONS,
  TURNING_CAUTIONS,
  WIND_CAUTIONS,
} from '../../lift/index.ts'
import { missingUnder } from '../../working/answer.ts'
import type { Check, Verdict } from '../../working/check.ts'
import { brokenWords } from '../../working/limit.ts'
import { showNumber, type UnitSystem } from '../../working/quantity.ts'
import { workingOf } from '../../working/show.ts'
import { allowancesOn, type SheetAllowance } from './allowances.ts'
import { type LegPlace, legBalance, legPlaces } from './balance.ts'
import { type CarrierGroup, carriersOf } from './carriers.ts'
import { DEFERRAL, SIGNING_ROLES } from './cautions.ts'
import { contentsOf, type PlanItem } from './contents.ts'
import { dayOf, type SheetDay } from './day.ts'
import { degreesText, exactFigure, exactUnit, type Figure, figure, OPEN, useText } from './figures.ts'
import { legsOf, type SheetLeg, type SheetTailLeg, tailLegsOf } from './legs.ts'
import { type Chain, type ChainLine, massBasisText, massChain } from './massChain.ts'
import { type CheckRefs, checkRefs } from './refs.ts'
import { governingText, groundChecksOf, type SheetCheck, sheetChecks, summaryOf, worstOf } from './sheetChecks.ts'
import { type SheetStep, stepsOf } from './steps.ts'
import { type SheetStages, type SheetSubject, subjectOf } from './subject.ts'
import { type TitleBlock, titleBlock } from './titleBlock.ts'
import { type SheetWorking, workingsUnder } from './workings.ts'
import { type SheetWork, worksOf } from './works.ts'

/** What the one who issues a sheet adds to what the model says. */
export interface SheetOptions {
  units?: UnitSystem
  /** SHA-256 over the canonical content, in hexadecimal; the host works it out. */
  contentHash?: string
  revision?: string
  /** Date of issue: year-month-day, or as it is to be printed. */
  date?: string
  /** Who signed, and when; a role that is absent is not signed. */
  signed?: readonly { role: string; name: string; on: string }[]
}

/** One stage of a turn. */
export interface SheetTurnStage {
  angle: number
  angleText: string
  main: Figure
  tail: Figure
  mainLean: string
  tailLean: string
}

/** One stage of a turn about a pivot, the line plumb. */
export interface SheetPivotStage {
  angle: number
  angleText: string
  hook: Figure
  up: Figure
  holding: PivotHolding
  /** From the pivot, along site x and up, m. */
  cog: readonly [number, number]
  lug: readonly [number, number]
  /** Over centre: the least force on the lifting points that holds the piece. */
  holdBack?: Figure
}

/** Everything that a lift sheet says, as plain data: what is drawn and printed is this. */
export interface LiftSheet {
  id: string
  title: string
  project: string
  invented: boolean
  piece: string
  kind: SheetSubject['lift']['kind']
  /** The piece leaves the shaft, or goes back into it. */
  fromShaft: boolean
  system: string
  hook: string
  units: UnitSystem
  /** Units of columns that are added up. */
  massUnit: string
  forceUnit: string
  lengthUnit: string
  summary: string
  /** The check that governs, in words. */
  governing: string
  verdict: Verdict
  mass: { net: Figure; plusMinus: Figure; basis: string }
  chain: Chain
  rated: Figure
  /** The part of the rating that the plan may use, and what is held against it. */
  allowed: Figure
  demand: Figure
  ratingBasis: string
  use: number | undefined
  useText: string
  /** The same in per cent of what the plan may use, and of the rating. */
  percent: string
  /** From net mass to design load: each allowance once, with its clause. */
  allowances: readonly SheetAllowance[]
  legs: readonly SheetLeg[]
  /** Under the tail hook of a turn, at its worst pull; none otherwise. */
  tailLegs: readonly SheetTailLeg[]
  tilt: string
  worstTilt: string
  legBalance: string
  legPlaces: readonly LegPlace[]
  height: { chain: Chain; needed: Figure; available: Figure }
  wind: {
    limit: Figure
    terms: readonly { label: string; figure: Figure }[]
    sail: string
    workings: readonly SheetWorking[]
  }
  clearance?: { gap: Figure; to: string }
  turning: readonly SheetTurnStage[]
  /** Hook and pivot of a turn about a pivot on the bay, and what the bay takes at most. */
  pivot: { stages: readonly SheetPivotStage[]; most: string } | undefined
  critical: string
  criteria: readonly { text: string; met: string }[]
  /** What the class demands to be arranged: what is, or that it is not stated. */
  arranged: readonly { text: string; what: string; source: string }[]
  /** Temporary works that it rests on. */
  works: readonly SheetWork[]
  duration: Figure
  steps: readonly SheetStep[]
  /** The way in time, where the piece can wait, and what is done when something fails. */
  day: SheetDay
  checks: readonly SheetCheck[]
  /** What carries the load, from the machine to the ground, each by its clause. */
  carriers: readonly CarrierGroup[]
  /** What public rules ask of a plan, and where it stands. */
  contents: readonly PlanItem[]
  /** Which check judges which figure. */
  refs: CheckRefs
  workings: readonly SheetWorking[]
  assumptions: readonly string[]
  cautions: readonly string[]
  deferral: string
  /** Addresses of the inputs that are missing under the figures of the sheet. */
  open: readonly string[]
  titleBlock: TitleBlock
  /** On paper: names that its tables show short. */
  inFull?: readonly { name: string; short: string }[]
  signatures: readonly { role: string; signed: string }[]
}

/** Names that stand whole in the sheet's list of them, and what stands for them elsewhere. */
export const listedNames = ({ inFull = [] }: LiftSheet): string[] => inFull.flatMap(({ name, short }) => [name, short])

const KIND_WORDS: Readonly<Record<LiftSheet['kind'], string>> = {
  out: 'out of the shaft',
  turn: 'turned',
  move: 'moved on the surface',
  back: 'back',
}

/** Title of a lift's sheet: the piece, and what is done with it. */
export const liftTitle = (piece: string, kind: LiftSheet['kind']): string => `${piece}, ${KIND_WORDS[kind]}`

/** The sheet of a lift as data; undefined when there is no such lift. */
export function liftSheet(stages: SheetStages, id: string, options: SheetOptions = {}): LiftSheet | undefined {
  const subject = subjectOf(stages, id)
  return subject === undefined ? undefined : sheetOf(subject, options)
}

/** The sheet of a subject. */
export function sheetOf(subject: SheetSubject, options: SheetOptions): LiftSheet {
  const units = options.units ?? subject.stages.model.project.settings.units
  const { outcome, set, piece, lift, stages, main } = subject
  const { about } = stages.model.project
  const own = [
    ...outcome.checks,
    ...groundChecksOf(
      stages.ground,
      subject.steps.map((s) => s.step),
      subject.id,
    ),
  ]
  const checks = sheetChecks(own, units)
  const use = hookUse(subject)
  const signatures = signaturesOf(options)
  const sheet = {
    id: subject.id,
    title: liftTitle(piece.name, lift.kind),
    project: about.title,
    invented: about.invented ?? false,
    piece: piece.name,
    kind: lift.kind,
    fromShaft: throughShaft(subject.steps),
    system: main.system.name,
    hook: main.hook.name,
    units,
    massUnit: exactUnit('kg', units),
    forceUnit: exactUnit('N', units),
    lengthUnit: exactUnit('m', units),
    summary: summaryOf(own),
    governing: governingText(own),
    verdict: worstOf(own),
    mass: {
      net: figure(set.net, units),
      plusMinus: figure(set.uncertainty, units),
      basis: massBasisText(subject, units),
    },
    chain: massChain(subject, units),
    rated: figure(outcome.rated, units),
    allowed: figure(outcome.allowed, units),
    demand: exactFigure(outcome.demand, units),
    ratingBasis: ratingText(subject),
    use,
    useText: useText(use),
    percent: percentText(subject, use),
    allowances: allowancesOn(subject, units),
    legs: legsOf(subject, units),
    tailLegs: tailLegsOf(subject, units),
    tilt: angleText(outcome.tilt.value),
    worstTilt: angleText(outcome.worstTilt.value),
    legBalance: legBalance(subject, units),
    legPlaces: legPlaces(subject, units),
    height: heightOf(subject, units),
    wind: windOf(subject, units),
    ...(outcome.clearance === undefined
      ? {}
      : { clearance: { gap: figure(outcome.clearance.gap, units), to: outcome.clearance.to } }),
    turning: turningOf(subject, units),
    pivot: pivotOf(subject, units),
    critical: outcome.critical === undefined ? 'class open' : outcome.critical ? 'critical lift' : 'standard lift',
    arranged: outcome.arranged.map(({ text, what, source }) => ({ text, what: what ?? OPEN, source })),
    criteria: outcome.criteria.map(({ text, met }) => ({ text, met: met === undefined ? OPEN : met ? 'yes' : 'no' })),
    works: worksOf(subject),
    duration: figure(outcome.duration, units),
    steps: stepsOf(subject, units),
    day: dayOf(subject, units),
    checks,
    carriers: carriersOf(own, checks, units),
    refs: checkRefs(subject, checks),
    workings: sheetWorkings(subject, units),
    assumptions: distinct(own.flatMap((c) => c.assumptions)),
    cautions: cautionsOf(subject, own),
    deferral: DEFERRAL,
    open: openFigures(outcome),
    signatures,
  }
  const whole = { ...sheet, contents: contentsOf(subject, sheet) }
  return { ...whole, titleBlock: titleBlock(whole, options) }
}

const angleText = (angle: number | undefined): string => (angle === undefined ? OPEN : degreesText(angle))

const distinct = (words: readonly string[]): string[] => [...new Set(words)]

/** Use of the rating as the sheet's own numbers give it: what the rating counts over what the plan may use. */
function hookUse({ outcome: { demand, allowed } }: SheetSubject): number | undefined {
  return demand.value === undefined || allowed.value === undefined || allowed.value <= 0
    ? undefined
    : demand.value / allowed.value
}

function percentText({ outcome: { demand, rated } }: SheetSubject, use: number | undefined): string {
  if (use === undefined || demand.value === undefined || rated.value === undefined) return OPEN
  const percent = (share: number): string => `${showNumber(100 * share, 1)} %`
  return `${percent(use)} of what the plan may use, ${percent(demand.value / rated.value)} of the rating`
}

function ratingText({ main: { hook } }: SheetSubject): string {
  const { dynamics, point, configuration, source } = hook.basis
  const words = [
    dynamics === undefined ? 'dynamics: not stated' : `dynamics ${dynamics}`,
    point === undefined ? 'place of the rating: not stated' : `${point}`,
    ...(configuration === undefined ? [] : [configuration]),
    ...(source === undefined ? [] : [source]),
  ]
  return words.join('; ')
}

function heightOf({ outcome: { height } }: SheetSubject, units: UnitSystem): LiftSheet['height'] {
  const { needed } = height
  const terms = needed.kind === 'largest' ? needed.terms : [{ label: 'hook', answer: needed }]
  const [first, ...others] = terms
  const working = first === undefined ? undefined : workingOf(first.answer, units)
  const line = (label: string, value: number | undefined): ChainLine => ({
    label,
    figure: exactFigure({ value, unit: 'm' }, units),
    basis: '',
  })
  return {
    chain: {
      lines: (working?.lines ?? []).map((l) => line(l.meaning, l.si)),
      total: exactFigure(first?.answer ?? needed, units),
      totalLabel: first?.label ?? 'hook',
      beyond: others.map(({ label, answer }) => line(label, answer.value)),
    },
    needed: exactFigure(needed, units),
    available: exactFigure(height.available, units),
  }
}

function windOf({ outcome }: SheetSubject, units: UnitSystem): LiftSheet['wind'] {
  const { allowableWind, wind, sail } = outcome
  return {
    limit: figure(allowableWind, units),
    terms: wind.map(({ label, answer }) => ({ label, figure: figure(answer, units) })),
    sail: `sail ${figure(sail.area, units).text}, wind blowing to ${degreesText(sail.heading)} from the drive`,
    workings: workingsUnder(
      wind.map((t) => t.answer),
      units,
    ).filter((w) => w.symbolic !== undefined),
  }
}

function turningOf({ outcome }: SheetSubject, units: UnitSystem): SheetTurnStage[] {
  return outcome.turning.map(({ angle, main, tail, mainLean, tailLean }) => ({
    angle,
    angleText: degreesText(angle),
    main: exactFigure(main, units),
    tail: exactFigure(tail, units),
    mainLean: degreesText(mainLean),
    tailLean: degreesText(tailLean),
  }))
}

function pivotOf({ outcome: { pivot } }: SheetSubject, units: UnitSystem): LiftSheet['pivot'] {
  if (pivot === undefined) return undefined
  return {
    stages: pivot.stages.map(({ angle, hook, up, holding, cog, lug, holdBack }) => ({
      angle,
      angleText: degreesText(angle),
      hook: exactFigure(hook, units),
      up: exactFigure(up, units),
      holding,
      cog,
      lug,
      ...(holdBack === undefined ? {} : { holdBack: exactFigure(holdBack, units) }),
    })),
    most: `On the bay at most ${figure(pivot.up, units).text} upright and ${figure(pivot.across, units).text} sideways, ${figure(pivot.line, units).text} along an edge of ${figure(pivot.edge, units).text}.`,
  }
}

function sheetWorkings({ outcome }: SheetSubject, units: UnitSystem): SheetWorking[] {
  const { demand, rated, allowed, legs, tilt, height, clearance, turning } = outcome
  const answers = [
    demand,
    rated,
    allowed,
    ...legs.flatMap((leg) => [leg.tension, leg.worst, leg.angle]),
    tilt,
    height.needed,
    ...(clearance === undefined ? [] : [clearance.gap]),
    ...turning.flatMap((stage) => [stage.main, stage.tail]),
    ...(outcome.pivot === undefined ? [] : [outcome.pivot.up, outcome.pivot.across, outcome.pivot.line]),
  ]
  return workingsUnder(answers, units)
}

function cautionsOf({ lift, steps }: SheetSubject, checks: readonly Check[]): string[] {
  const turning = lift.kind === 'turn' || lift.tail !== undefined ? TURNING_CAUTIONS : []
  return distinct([
    ...LIFT_CAUTIONS,
    ...WIND_CAUTIONS,
    ...READING_CAUTIONS,
    ...turning,
    ...(throughShaft(steps) ? SHAFT_CAUTIONS : []),
    ...(steps.some((s) => s.joints.length > 0) ? FITTING_CAUTIONS : []),
    ...checks.flatMap((c) => c.cautions),
  ])
}

const throughShaft = (steps: SheetSubject['steps']): boolean => steps.some((step) => step.from === 'shaft')

/** Addresses of what is missing, and limits that are broken, under the figures of a lift's sheet. */
export function openFigures({ demand, allowed, legs, height, allowableWind }: LiftOutcome): string[] {
  const figures = [demand, allowed, allowableWind, height.needed, height.available, ...legs.map((leg) => leg.tension)]
  return distinct(figures.flatMap((f) => [...missingUnder(f), ...brokenWords(f)]))
}

function signaturesOf({ signed }: SheetOptions): LiftSheet['signatures'] {
  return SIGNING_ROLES.map((role) => {
    const own = signed?.find((s) => s.role === role)
    return { role, signed: own === undefined ? '' : `${own.name}, ${own.on}` }
  })
}
