import type { Model, Service } from '../model/index.ts'
import { type Answer, given } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { foundAgainKind, hosesKind } from './kinds.ts'
import type { ServiceEnds } from './service.ts'
import { stepSubject } from './step-checks.ts'
import type { VerifiedStep } from './verify.ts'

const CAUTION =
  'A service at the wrong port can start a machine or hold a load no longer. A second person reads every tag before pressure or voltage is let in.'

/** Checks 75 and 76 of every step that parts services which come back. */
export function servicesBackChecks(model: Model, steps: readonly VerifiedStep[], memory: Memory): readonly Check[] {
  return steps.flatMap((step) => {
    const back = step.release.parted.filter((ends) => comesBack(model, ends))
    if (back.length === 0) return []
    const { hoseYears } = model.project.settings
    const day = dayAsked(model)
    const services = back.map(({ service }) => service)
    const inputs = [...services, stepSubject(model, step).name, hoseYears, day, model.near]
    return memory.once(`strip-services-back/${step.step.step}`, inputs, () => {
      const hoses = back.filter(({ service }) => service.kind === 'hose')
      return [foundAgainCheck(model, step, back), ...(hoses.length === 0 ? [] : [hosesCheck(model, step, hoses, day)])]
    })
  })
}

/** A service is joined again unless what it led to is scrapped. */
export const comesBack = ({ instances }: Model, { from, to }: Pick<ServiceEnds, 'from' | 'to'>): boolean =>
  [...from, ...to].every((id) => instances.byId.get(id)?.part.fate !== 'scrapped')

/** The day on which a hose that is not joined yet is asked about. */
const dayAsked = ({ project }: Model): string | undefined =>
  (project.programme?.dataDate ?? project.programme?.today ?? project.about.date)?.slice(0, 10)

const tagOf = (id: string, { tag }: Service): string => tag ?? id

function foundAgainCheck(model: Model, step: VerifiedStep, back: readonly ServiceEnds[]): Check {
  const faults = back.flatMap(({ id, service }) => serviceFaults(id, service))
  return check({
    kind: foundAgainKind,
    subject: stepSubject(model, step),
    demand: faultsFound(
      faults.length,
      'services whose tags differ, or that only one person looked at',
      Object.fromEntries(back.flatMap(({ id, service }) => serviceMissing(id, service))),
    ),
    capacity: NONE,
    near: model.near,
    assumptions: [`services to join again: ${back.map(({ id, service }) => tagOf(id, service)).join(', ')}`],
    cautions: [CAUTION],
    found: faults,
  })
}

/** What is wrong with the records of one service that was parted or joined. */
export function serviceFaults(id: string, service: Service): string[] {
  const { parted, joined } = service
  const tag = tagOf(id, service)
  const differs = (what: string, read: string | undefined): string[] =>
    read === undefined || read === tag ? [] : [`${tag}: ${what} reads "${read}"`]
  const early = parted !== undefined && joined !== undefined && joined.on < parted.on
  const alone = joined?.checkedBy !== undefined && joined.checkedBy.trim() === joined.by.trim()
  return [
    ...differs('the tag taken off', parted?.tag),
    ...differs('the tag put on', joined?.tag),
    ...differs('the port', joined?.port),
    ...(early ? [`${tag}: joined on ${joined.on}, before it was parted on ${parted.on}`] : []),
    ...(alone ? [`${tag}: ${joined.by} joined it and is named as who looked`] : []),
  ]
}

/** What has not been recorded of one service that goes back, as open inputs; empty where it is joined and looked at by another. */
export function serviceMissing(id: string, { parted, joined }: Service): [string, Answer<'1'>][] {
  const open = (...at: string[]): [string, Answer<'1'>] => [
    `${id} ${at.join(' ')}`,
    given('1', pointerOf('services', id, ...at), undefined),
  ]
  if (parted === undefined) return [open('parted')]
  if (joined === undefined) return [open('joined')]
  return [
    ...(parted.tag === undefined ? [open('parted', 'tag')] : []),
    ...(['tag', 'port', 'checkedBy'] as const).flatMap((at) => (joined[at] === undefined ? [open('joined', at)] : [])),
  ]
}

function hosesCheck(model: Model, step: VerifiedStep, hoses: readonly ServiceEnds[], day: string | undefined): Check {
  const { hoseYears } = model.project.settings
  const asked = hoses.map(({ id, service }) => hoseOf({ id, service, day, years: hoseYears?.value }))
  const faults = asked.flatMap((a) => a.faults)
  const open = asked.flatMap(({ id, missing }) => (missing ? [id] : []))
  return check({
    kind: hosesKind,
    subject: stepSubject(model, step),
    demand: faultsFound(faults.length, 'hoses that are not fit to go back', {
      ...(hoseYears === undefined ? { 'longest use': given('1', '/settings/hoseYears', undefined) } : {}),
      ...Object.fromEntries(open.map((id) => [id, given('1', pointerOf('services', id, 'hose'), undefined)])),
    }),
    capacity: NONE,
    near: model.near,
    assumptions: [
      `hoses that go back: ${hoses.length}`,
      ...(hoseYears?.value === undefined
        ? []
        : [`in use for at most ${hoseYears.value} years from the day they were made`]),
    ],
    found: faults,
  })
}

interface Asked {
  id: string
  service: Service
  day: string | undefined
  years: number | undefined
}

const DAYS_OF_YEAR = 365.25
const DAY = 86_400_000

/** What is wrong with one hose, and whether anything of it is not known. */
function hoseOf({ id, service, day, years }: Asked): { id: string; faults: string[]; missing: boolean } {
  const { made, rated, leastBend, bend } = service.hose ?? {}
  const on = service.joined?.on ?? day
  const tag = tagOf(id, service)
  const age =
    made === undefined || on === undefined ? undefined : (Date.parse(on) - Date.parse(made)) / DAY / DAYS_OF_YEAR
  const over = (a: number | undefined, b: number | undefined): boolean => a !== undefined && b !== undefined && a > b
  return {
    id,
    faults: [
      ...(over(age, years) ? [`${tag}: made on ${made}, ${age?.toFixed(1)} years before it goes back`] : []),
      ...(over(service.pressure?.value, rated?.value) ? [`${tag}: rated below its working pressure`] : []),
      ...(over(leastBend?.value, bend?.value) ? [`${tag}: bent more tightly than the maker allows`] : []),
    ],
    missing:
      age === undefined ||
      bend === undefined ||
      leastBend === undefined ||
      (service.pressure !== undefined && rated === undefined),
  }
}
