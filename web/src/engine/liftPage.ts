import type { Stages } from '@shieldwright/engine'
import { type HeaderResult, turnCourse, turnDiagram } from '@shieldwright/engine/lift/index.ts'
import { type LiftPage, liftPage, svgOf } from '@shieldwright/engine/report/index.ts'
import type { Answer } from '@shieldwright/engine/working/answer.ts'
import type { Check, Verdict } from '@shieldwright/engine/working/check.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { workingOf } from '@shieldwright/engine/working/show.ts'
import type { LiftPageView, PivotView, SumLine, TurnView, WayView } from '../lift/pageView.ts'
import { holdersOf } from './holders.ts'
import { PAGE_INKS } from './pageInks.ts'
import type { NumberAt } from './protocol.ts'

/** What the page of one lift shows; undefined when there is no such lift. */
export function liftPageView(stages: Stages, id: string, system: UnitSystem): LiftPageView | undefined {
  const page = liftPage(stages, id, { units: system })
  return page === undefined ? undefined : viewOf(stages, page)
}

function viewOf(stages: Stages, page: LiftPage): LiftPageView {
  const { subject, sheet } = page
  const { outcome } = subject
  const hookCheck = outcome.checks.find((c) => c.kind === 'lift.hook.use' && c.id.endsWith(subject.main.hookId))
  return {
    id: subject.id,
    piece: outcome.piece,
    along: alongOf(stages, page),
    span: spanOf(stages, page),
    ...sumOf(page),
    demand: { label: 'load that the rating counts', value: outcome.demand.value, basis: '', at: at(page, 'demand') },
    allowed: {
      label: allowedWords(page),
      value: outcome.allowed.value,
      basis: sheet.ratingBasis.split('; ').slice(0, 2).join(', '),
      at: at(page, 'allowed'),
    },
    hookCheck: hookCheck === undefined ? undefined : { id: hookCheck.id, verdict: hookCheck.verdict },
    unexplained: unexplainedOf(stages, page),
    tilt: sheet.tilt,
    legBalance: sheet.legBalance,
    ...riggedOf(page),
    holders: holdersOf(outcome),
    drawings: { hanging: svgOf(page.hanging, PAGE_INKS), plan: svgOf(page.plan, PAGE_INKS) },
    wind: windOf(page),
    sail: sheet.wind.sail,
    checks: checkIds(stages, page),
    turn: turnOf(stages, page),
    pivot: pivotOf(page),
    critical: sheet.critical,
    criteria: sheet.criteria,
    arranged: sheet.arranged,
    works: sheet.works,
    steps: sheet.steps,
    cautions: sheet.cautions,
    duration: outcome.duration.value,
    way: wayOf(page),
  }
}

function wayOf(page: LiftPage): WayView {
  const { stages, pointOfNoReturn, holdingPositions, refuges } = page.subject.outcome
  const refuge = (stage: number, failure: string) => {
    const i = refuges.findIndex((r) => r.stage === stage && r.failure === failure)
    return { value: refuges[i]?.time.value, at: at(page, 'refuge', i), position: refuges[i]?.position ?? '' }
  }
  const holds = refuges.find(({ failure }) => failure === 'power')?.holds
  return {
    stages: stages.map(({ name, time, end, from, to }, i) => ({
      name,
      takes: { value: time.value, at: at(page, 'stage', i) },
      until: end.value,
      level: to?.[2],
      plan: from === undefined || to === undefined ? undefined : Math.hypot(to[0] - from[0], to[1] - from[1]),
      shelter: refuge(i, 'weather'),
      power: refuge(i, 'power'),
      unit: refuge(i, 'jack or winch'),
    })),
    noReturn: {
      value: pointOfNoReturn.time.value,
      at: at(page, 'noReturn'),
      stage: pointOfNoReturn.stage,
      stated: pointOfNoReturn.stated,
    },
    window: { value: pointOfNoReturn.window.value, at: at(page, 'window') },
    positions: holdingPositions.map(({ name, from, to }) => ({ name, from: from.value, to: to.value })),
    holds: holds === undefined ? 'not known' : holds ? 'held without power' : 'not held without power',
  }
}

/** Kinds of check of what carries the load between rigging and piece, in the order of the load's way down. */
const STRUCTURES: readonly (readonly [kind: string, asks: string])[] = [
  ['lift.beam.use', 'beam in bending and buckling'],
  ['lift.beam.shear', 'beam in shear'],
  ['lift.beam.bearing', 'web under a point force'],
  ['lift.beam.sag', 'sag of a beam'],
  ['lift.lug.strength', 'plate round the hole of a lug'],
  ['lift.lug.foot', 'foot of a lug'],
  ['lift.lug.weld', 'weld of a lug'],
  ['lift.lug.parent', 'plate under a lug'],
  ['lift.bolts.use', 'bolts of a frame'],
  ['lift.bolts.slip', 'slip of its bolts'],
]

/** What passes least: a failure before what is open, and that before the largest use. */
const RANK: Readonly<Record<Verdict, number>> = { fail: 0, open: 1, near: 2, pass: 3 }

function structuresOf(checks: readonly Check[]): LiftPageView['structures'] {
  return STRUCTURES.flatMap(([kind, asks]) => {
    const own = checks.filter((c) => c.kind === kind)
    const worst = own.sort(
      (a, b) => RANK[a.verdict] - RANK[b.verdict] || (b.utilisation ?? 0) - (a.utilisation ?? 0),
    )[0]
    if (worst === undefined) return []
    const { id, title, utilisation, verdict } = worst
    return [{ id, asks, of: title.slice(title.lastIndexOf(': ') + 2), use: utilisation, verdict }]
  })
}

const headersOf = (headers: readonly HeaderResult[]): LiftPageView['headers'] =>
  headers.map(({ system, rails, spots }) => ({
    system,
    rails,
    spots: spots.map(({ label, x, low, high }) => ({ label, x, low: low.value, high: high.value })),
  }))

const riggedOf = ({
  subject: { outcome },
}: LiftPage): Pick<LiftPageView, 'bridles' | 'levelling' | 'allowances' | 'structures' | 'headers'> => ({
  structures: structuresOf(outcome.checks),
  headers: headersOf(outcome.headers),
  bridles: outcome.bridles.map(({ hook, rules, governs }) => ({
    hook,
    governs,
    rules: rules.map(({ label, tension }) => ({ label, tension: tension.value })),
  })),
  levelling: outcome.levelling.map(({ kind, text, tilt, patch }) => ({ kind, text, tilt: tilt.value, patch })),
  allowances: outcome.allowances.map(({ title, value, enters, clause, note }) => ({
    title,
    value: value.value,
    unit: value.unit,
    enters,
    clause: clause.text,
    note,
  })),
})

type LiftFigure = Extract<NumberAt, { lift: string }>['figure']

const at = ({ subject }: LiftPage, figure: LiftFigure, of?: number): NumberAt =>
  of === undefined ? { lift: subject.id, figure } : { lift: subject.id, figure, of }

function alongOf({ strip }: Stages, { subject }: LiftPage): number | undefined {
  const last = subject.steps.at(-1)?.step
  const index = strip.steps.findIndex((s) => s.step === last)
  return index < 0 ? undefined : index + (subject.back ? 0 : 1)
}

/** Stops along the order from which it begins and at which it ends. */
function spanOf({ strip }: Stages, { subject }: LiftPage): LiftPageView['span'] {
  const own = subject.steps.map(({ step }) => strip.steps.findIndex((s) => s.step === step))
  if (own.length === 0 || own.includes(-1)) return undefined
  const [first, last, whole] = [Math.min(...own), Math.max(...own) + 1, 2 * strip.steps.length]
  return subject.back ? [whole - last, whole - first] : [first, last]
}

const allowedWords = ({ subject: { main, outcome }, sheet }: LiftPage): string =>
  outcome.allowed === outcome.rated ? `rating, ${sheet.hook}` : `what the plan may use of ${main.hook.name}`

function sumOf(page: LiftPage): Pick<LiftPageView, 'lines' | 'total' | 'beyond'> {
  const { subject, sheet } = page
  const { lines, hookLoad } = subject.outcome
  return {
    lines: lines.flatMap((term, i): SumLine[] => {
      const printed = sheet.chain.lines[i]
      const line: SumLine = {
        label: term.label,
        value: term.answer.value,
        plusMinus: printed?.plusMinus?.si,
        basis: shortBasis(printed?.basis ?? ''),
        at: at(page, 'line', i),
      }
      return [line, ...madeOf(term.answer)]
    }),
    total: { label: 'Hook load', value: hookLoad.value, basis: 'below the hook', at: at(page, 'hookLoad') },
    beyond: sheet.chain.beyond.map((line) => ({ label: line.label, value: line.figure.si, basis: line.basis })),
  }
}

/** Of several bases the one with the largest share; the working has them all. */
function shortBasis(basis: string): string {
  const [first = '', ...others] = basis.split(', ')
  return others.length === 0 || basis.startsWith('as returned')
    ? basis.replace(/, less .*$/, '')
    : `mostly ${first.replace(/ [\d.].*$/, '')}`
}

/** What a mass that was weighed or comes back is made of, line by line, with its sign. */
function madeOf(answer: Answer): SumLine[] {
  if (answer.kind !== 'worked' || !/^mass\.(weighed|returned)\./.test(answer.formula)) return []
  const { lines, slopes } = workingOf(answer)
  return lines
    .filter(({ unit, si }) => unit === 'kg' && si !== 0)
    .map(({ key, meaning, si, basis }) => ({
      label: meaning,
      value: si === undefined || (slopes[key] ?? 0) >= 0 ? si : -si,
      basis: basis ?? '',
      inner: true,
    }))
}

function unexplainedOf(stages: Stages, { subject }: LiftPage): LiftPageView['unexplained'] {
  const { piece } = subject.outcome
  const value = stages.mass.pieces[piece]?.weighed?.unexplained?.value
  return value === undefined || Math.abs(value) < 1
    ? undefined
    : { value, at: { piece, state: 'weighed', figure: 'unexplained' } }
}

function windOf(page: LiftPage): LiftPageView['wind'] {
  const { allowableWind, wind } = page.subject.outcome
  const terms = wind.map(({ label, answer }, i) => ({
    label,
    value: answer.value,
    unit: answer.unit,
    at: at(page, 'wind', i),
  }))
  return [{ label: 'Stop lifting', value: allowableWind.value, unit: 'm/s', at: at(page, 'allowableWind') }, ...terms]
}

/** The checks of the lift, and those of the ground that the same lift or its steps load. */
function checkIds(stages: Stages, { subject }: LiftPage): string[] {
  const steps = new Set(subject.steps.map((s) => s.step))
  const under = stages.checks.filter(
    (c) =>
      c.stage === 'ground' &&
      (c.subject.id === subject.id || c.id.split('/').some((part) => part === subject.id || steps.has(part))),
  )
  return [...subject.outcome.checks, ...under].map((c) => c.id)
}

function turnOf(stages: Stages, page: LiftPage): TurnView | undefined {
  const { turned, subject } = page
  if (turned === undefined) return undefined
  const share = (hookId: string | undefined): number | undefined => {
    const check = subject.outcome.checks.find(
      (c) => c.kind === 'lift.turn.share' && hookId !== undefined && c.id.endsWith(`/${hookId}`),
    )
    return check?.capacity.value === undefined ? undefined : check.capacity.value * G
  }
  return {
    course: turnCourse(stages.model, stages.mass, stages.strip, subject.id),
    ...turnDiagram(stages.model, stages.mass, stages.strip, subject.id),
    limits: { main: share(subject.main.hookId), tail: share(subject.tail?.hookId) },
    piece: turned,
    lean: subject.outcome.checks.find((c) => c.kind === 'lift.turn.out-of-plumb')?.capacity.value,
  }
}

function pivotOf({ pivot, sheet }: LiftPage): PivotView | undefined {
  if (pivot === undefined || sheet.pivot === undefined) return undefined
  return {
    drawing: svgOf(pivot, PAGE_INKS),
    most: sheet.pivot.most,
    words: sheet.pivot.stages.map(
      ({ angleText, hook, up, holding, holdBack }) =>
        `${angleText}: ${
          holding === 'held'
            ? `hook ${hook.text}, pivot ${up.text} ${sheet.forceUnit}`
            : `${holding}${holdBack === undefined ? '' : `, to be held back with ${holdBack.text} ${sheet.forceUnit}`}`
        }`,
    ),
    units: { length: sheet.lengthUnit, force: sheet.forceUnit },
  }
}

/** Standard gravity, m/s²: hooks are rated in mass, lines pull in force. */
const G = 9.80665
