import { elementThickness, isSetOutOnCircle, type Programme, type ReadProject } from '../model/index.ts'
import { type Answer, given, knownOr, missingUnder, stated } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activity, Link } from './activity.ts'
import { cradleVolume, daysByLength, daysByNumber, daysByVolume, excavatedVolume } from './groundWork.formulas.ts'

type GroundWork = NonNullable<Programme['activities'][string]['groundWork']>

/** Days of a ground work with where they come from. */
export interface GroundWorkDays {
  days: readonly [number, number, number]
  /** The days as they were worked, most likely. */
  worked: Answer<'1'>
  unknown: readonly string[]
  from: readonly string[]
  basis: string
}

/** What an activity's quantity and rate make of its days; undefined when it is no ground work. */
export function groundWorkOf(project: ReadProject, programme: Programme, id: string): GroundWorkDays | undefined {
  const work = programme.activities[id]?.groundWork
  if (work === undefined) return undefined
  const at = `${pointerOf('programme', 'activities', id)}/groundWork`
  const worked = workedDays({ project, programme, work, at, id })
  const rate = programme.rates[work.rate]
  const [least, greatest] = (work.spread ?? programme.work?.spread)?.map((r) => r.value as number) ?? [1, 1]
  const likely = worked.days.value ?? 0
  return {
    days: [likely * Math.min(1, least ?? 1), likely, likely * Math.max(1, greatest ?? 1)],
    worked: worked.days,
    unknown: missingUnder(worked.days),
    from: worked.from,
    basis: `${quantityText(worked.amount)} at ${rate?.value} ${rate?.unit}${work.gangs > 1 ? ` × ${work.gangs}` : ''}${work.fixedDays > 0 ? `, ${work.fixedDays} days beside` : ''}; rate: ${rate?.basis}`,
  }
}

const quantityText = ({ value, unit }: Answer<'1' | 'm' | 'm3'>): string =>
  value === undefined ? 'a quantity not known' : `${Number(value.toPrecision(4))}${unit === '1' ? '' : ` ${unit}`}`

interface Asked {
  project: ReadProject
  programme: Programme
  work: GroundWork
  at: string
  id: string
}

interface Worked {
  days: Answer<'1'>
  amount: Answer<'1' | 'm' | 'm3'>
  from: readonly string[]
}

function workedDays(asked: Asked): Worked {
  const { project, programme, work, at } = asked
  const gangs = { k: given('1', `${at}/gangs`, work.gangs), f: given('1', `${at}/fixedDays`, work.fixedDays) }
  const pointer = `${pointerOf('programme', 'rates', work.rate)}/value`
  const rate = <U extends '1' | 'm' | 'm3'>(unit: U): Answer<U> => given(unit, pointer, rateIn(programme, work, unit))
  const byVolume = (Q: Answer<'m3'>, from: readonly string[]): Worked => ({
    days: daysByVolume.show({ Q, r: rate('m3'), ...gangs }),
    amount: Q,
    from,
  })
  const byNumber = (Q: Answer<'1'>, from: readonly string[]): Worked => ({
    days: daysByNumber.show({ Q, r: rate('1'), ...gangs }),
    amount: Q,
    from,
  })
  const { shaft, cradle } = project
  switch (work.what) {
    case 'wall':
      return byNumber(given('1', '/shaft/wall/piles', shaft?.wall.piles), ['/shaft/wall'])
    case 'dewatering':
      return byNumber(given('1', '/ground/water', wellsOf(project)), ['/ground/water'])
    case 'excavation':
      return byVolume(volumeBetween(project, topOf(asked), bottomOf(asked)), ['/shaft'])
    case 'base':
      return byVolume(
        volumeBetween(
          project,
          knownOr(shaft?.slabTop, 'm', '/shaft/slabTop'),
          knownOr(shaft?.excavation, 'm', '/shaft/excavation'),
        ),
        ['/shaft'],
      )
    case 'cradle':
      return byVolume(
        cradleVolume.show({
          L: lengthOf(project),
          R: knownOr(cradle?.radius, 'm', '/cradle/radius'),
          t: knownOr(cradle?.thickness, 'm', '/cradle/thickness'),
          theta: knownOr(cradle?.contactHalfAngle, 'rad', '/cradle/contactHalfAngle'),
        }),
        ['/cradle'],
      )
    case 'drive': {
      const Q = work.length ?? lengthOf(project)
      return {
        days: daysByLength.show({ Q, r: rate('m'), ...gangs }),
        amount: Q,
        from: work.length === undefined ? ['/cradle'] : [],
      }
    }
    default:
      return work.what satisfies never
  }
}

const UNITS = { '1': /^(piles?|wells?) a day$/, m: /^m a day$/, m3: /^m3 a day$/ } as const

/** The rate, where its unit is that of the quantity; else it is not known. */
function rateIn({ rates }: Programme, { rate }: GroundWork, unit: keyof typeof UNITS): number | undefined {
  const found = rates[rate]
  return found !== undefined && UNITS[unit].test(found.unit) ? found.value : undefined
}

function wellsOf({ ground }: ReadProject): number | undefined {
  const wells = Object.values(ground?.water ?? {}).flatMap((w) => (w.wells === undefined ? [] : [w.wells.installed]))
  return wells.length === 0 ? undefined : wells.reduce((sum, n) => sum + n, 0)
}

function lengthOf({ cradle }: ReadProject): Answer<'m'> {
  const [from, to] = cradle?.along ?? []
  if (from?.value === undefined || to?.value === undefined) return given('m', '/cradle/along', undefined)
  return given('m', '/cradle/along', Math.abs(to.value - from.value))
}

/** What is dug is bounded by the faces of the piles or panels; by bore and lining where they are not set out on a circle. */
function dugDiameter({ shaft }: ReadProject): Answer<'m'> {
  if (shaft === undefined) return given('m', '/shaft', undefined)
  const { ringDiameter, lining } = shaft.wall
  const thick = elementThickness(shaft)?.value
  if (isSetOutOnCircle(shaft) && ringDiameter?.value !== undefined && thick !== undefined) {
    return given('m', '/shaft/wall/ringDiameter', ringDiameter.value - thick)
  }
  const clear = shaft.clearDiameter.value
  return given('m', '/shaft/clearDiameter', clear === undefined ? undefined : clear + 2 * (lining?.value ?? 0))
}

const volumeBetween = (project: ReadProject, a: Answer<'m'>, b: Answer<'m'>): Answer<'m3'> =>
  excavatedVolume.show({ D: dugDiameter(project), a, b })

const bottomOf = ({ project, work }: Pick<Asked, 'project' | 'work'>): Answer<'m'> =>
  work.to ?? knownOr(project.shaft?.excavation, 'm', '/shaft/excavation')

/** A stage begins where the next higher one ends, the first at the collar. */
function topOf({ project, programme, work, id }: Asked): Answer<'m'> {
  const own = bottomOf({ project, work }).value ?? Number.NEGATIVE_INFINITY
  const above = stages(project, programme).filter((s) => s.id !== id && s.level > own)
  const next = above.at(-1)
  return next === undefined
    ? knownOr(project.shaft?.collar, 'm', '/shaft/collar')
    : stated('m', next.level, `bottom of ${next.id}`)
}

/** Stages of excavation from the top down. */
function stages(project: ReadProject, { activities }: Programme): { id: string; level: number }[] {
  return Object.entries(activities)
    .flatMap(([id, { groundWork }]) => {
      if (groundWork?.what !== 'excavation') return []
      const level = bottomOf({ project, work: groundWork }).value
      return level === undefined ? [] : [{ id, level }]
    })
    .sort((a, b) => b.level - a.level)
}

/**
 * What one ground work waits for in another: the first stage for wall and wells, each stage for the one above, the base for
 * the last, the cradle for the base. Links, from and to.
 */
export function groundLinks(project: ReadProject, programme: Programme): [string, string][] {
  const of = (what: GroundWork['what']): string[] =>
    Object.entries(programme.activities).flatMap(([id, a]) => (a.groundWork?.what === what ? [id] : []))
  const digging = stages(project, programme).map(({ id }) => id)
  const each = (from: readonly string[], to: readonly string[]): [string, string][] =>
    from.flatMap((a) => to.map((b): [string, string] => [a, b]))
  return [
    ...each([...of('wall'), ...of('dewatering')], digging.slice(0, 1)),
    ...digging.slice(1).map((id, i): [string, string] => [digging[i] as string, id]),
    ...each(digging.slice(-1), of('base')),
    ...each(of('base'), of('cradle')),
  ]
}

/** Concrete that hardens by the clock after it is placed: whatever waited for the pour waits for that. */
export function withCuring(programme: Programme, all: readonly Activity[]): Activity[] {
  const cures = new Map(
    all.flatMap((a) => {
      const time = programme.activities[a.id]?.groundWork?.curing?.value
      return time === undefined || time <= 0 || a.kind !== 'typed' ? [] : [[a.id, cure(a, time)] as const]
    }),
  )
  if (cures.size === 0) return [...all]
  const hardened = (link: Link): Link => {
    const own = cures.get(link.to)
    return own === undefined || link.type !== 'FS' ? link : { ...link, to: own.id }
  }
  return [...all.map((a): Activity => ({ ...a, after: a.after.map(hardened) })), ...cures.values()]
}

const cure = (a: Activity, time: number): Activity => ({
  id: `${a.id}.cure`,
  name: `${a.name}: curing`,
  kind: 'cure',
  phase: a.phase,
  // no calendar of this name: hours of the clock
  calendar: 'by the clock',
  work: [time, time, time],
  interruptible: true,
  after: [{ to: a.id, type: 'FS', lag: 0 }],
  needs: {},
  from: [...a.from],
  fixedCost: 0,
})
