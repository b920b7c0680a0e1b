import type { Model, PunchItem } from '../model/index.ts'
import { given } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activities, Scheduled } from './activity.ts'
import { punchHeld } from './kinds.ts'
import type { ProgrammeResult } from './programme.ts'
import { localAt, type Zone } from './zone.ts'

type Project = Model['project']

/** Items by the activity that they hold, closed ones too. */
export type PunchHolds = Readonly<Record<string, readonly string[]>>

const CAUTION =
  'The dates of the plan stand as they are: an item that holds moves none of them, and no date lets energy in over one.'

/** What each item that blocks holds: energy on the circuits it concerns, the tests it names, the restart. */
export function punchHolds({ punchList, services, programme }: Project, activities: Activities): PunchHolds {
  const holds: Record<string, string[]> = {}
  for (const [id, item] of Object.entries(punchList)) {
    if (item.blocks === 'nothing') continue
    const restart = programme?.restart === undefined ? [] : [programme.restart]
    const all = [...energies(item, services, activities), ...item.tests.map((t) => `test.${t}`), ...restart]
    for (const activity of new Set(all))
      if (activities[activity] !== undefined) holds[activity] = [...(holds[activity] ?? []), id]
  }
  return holds
}

/** Circuits that an item of this class keeps dead: those of its services and of services at its parts; of neither, every one. */
function energies(item: PunchItem, services: Project['services'], activities: Activities): string[] {
  if (item.blocks !== 'energising') return []
  const parts = new Set(item.parts)
  const own = Object.entries(services).flatMap(([id, { from, to, isolation }]) =>
    isolation !== undefined && (item.services.includes(id) || parts.has(from) || parts.has(to))
      ? [`energise.${isolation}`]
      : [],
  )
  const known = own.filter((activity) => activities[activity] !== undefined)
  if (known.length > 0) return known
  return Object.values(activities).flatMap(({ id, kind }) => (kind === 'energise' ? [id] : []))
}

type Held = Pick<ProgrammeResult, 'activities' | 'plan' | 'progress' | 'solved'>

/** One check for each activity that an item holds. */
export function punchHoldChecks(model: Model, held: Held, memory: Memory): readonly Check[] {
  const { project, near } = model
  const { activities, plan, progress, solved } = held
  const inputs = [project.punchList, project.services, project.programme, activities, plan, progress, solved, near]
  return memory.once('programme/punch-holds', inputs, () =>
    Object.entries(punchHolds(project, activities)).map(([id, items]) => holdCheck(model, held, id, items)),
  )
}

function holdCheck({ project, near }: Model, held: Held, id: string, items: readonly string[]): Check {
  const { punchList } = project
  const told = items.map((item) => ({ id: item, at: pointerOf('punchList', item), ...(punchList[item] as PunchItem) }))
  const began = held.progress?.actual[id]?.start
  const faults = told.flatMap((item) => faultOf(item, dayOf(held.solved?.zone, began), plannedDay(held, id)))
  const open = told.filter(({ closed }) => closed === undefined)
  return check({
    kind: punchHeld,
    subject: { pointer: held.activities[id]?.from[0] ?? '/punchList', id, name: held.activities[id]?.name ?? id },
    demand: faultsFound(
      faults.length,
      'items that were not closed when it began, or are due to be closed after the plan begins it',
      Object.fromEntries(open.map(({ id: item, at }) => [item, given('1', `${at}/closed`, undefined)])),
    ),
    capacity: NONE,
    near,
    assumptions: told.map(({ id: item, what, closed, due }) =>
      closed === undefined
        ? `held by ${item}, ${what}${due === undefined ? '' : `, due ${due}`}`
        : `${item}, ${what}, closed on ${closed.on}`,
    ),
    cautions: [CAUTION],
    found: faults,
  })
}

type Told = PunchItem & { id: string }

function faultOf({ id, what, closed, due }: Told, began: string | undefined, planned: string | undefined): string[] {
  if (began !== undefined) {
    if (closed === undefined) return [`began on ${began} while ${id}, ${what}, is not closed`]
    return closed.on > began ? [`began on ${began} before ${id}, ${what}, was closed on ${closed.on}`] : []
  }
  return closed === undefined && due !== undefined && planned !== undefined && due > planned
    ? [`${id}, ${what}, is due on ${due}; the plan begins it on ${planned}`]
    : []
}

const plannedDay = ({ plan, solved }: Held, id: string): string | undefined =>
  dayOf(solved?.zone, (plan[id] as Scheduled | undefined)?.start)

const dayOf = (zone: Zone | undefined, seconds: number | undefined): string | undefined =>
  zone === undefined || seconds === undefined ? undefined : localAt(zone, seconds).date

/** Items that hold an activity today, in words. */
export function heldBy({ punchList }: Project, holds: PunchHolds, activity: string): string[] {
  return (holds[activity] ?? []).flatMap((id) => {
    const item = punchList[id]
    return item === undefined || item.closed !== undefined ? [] : [`${id}: ${item.what}`]
  })
}
