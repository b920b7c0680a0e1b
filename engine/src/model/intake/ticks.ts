import type { Operation } from '../../working/patch.ts'
import { pointerOf } from '../../working/pointer.ts'
import { epochOf } from '../moment.ts'
import type { BoltRecord, LiftLogEntry, Service } from '../schema/project.ts'
import { patchFor, valueAt } from './intake.ts'
import { boltsSaid, type TickGround, type TickPlace, tickPlace, tickSays } from './tickPlace.ts'
import type { Tick, TicksFile } from './ticksFile.ts'

/** What a line becomes. */
export type Becomes =
  | 'out'
  | 'back'
  | 'isolated'
  | 'locked'
  | 'discharged'
  | 'proved'
  | 'begun'
  | 'done'
  | 'read'
  | 'checked'
  | 'tightened'
  | 'looked at again'
  | 'in the lift log'

/** A tick that is taken, or that says what is recorded already. */
export interface TickedLine {
  at: string
  says: string
  becomes: Becomes
  by: string
  on: string
  /** Address of the record that it becomes a part of. */
  record: string
}

/** A tick that is not taken by itself: what it said, and why a person has to look at it. */
export interface ListedTick extends Tick {
  why: string
  /** The line has changed since, and can be taken all the same. */
  canBeTaken: boolean
}

/** What ticks say, for a project. Nothing has been changed by it. */
export interface TicksIntake {
  patch: readonly Operation[]
  taken: readonly TickedLine[]
  /** Recorded already, as ticked. */
  same: readonly TickedLine[]
  listed: readonly ListedTick[]
  /** Ticks on sheets: the project keeps nothing of them. */
  noted: readonly Tick[]
}

export interface TicksInput extends TickGround {
  file: TicksFile
  /** The project file, as plain data. */
  document: unknown
  /** What the clock of the host says, ms since 1970: nothing has been done later than now. */
  now: number
  /** Up to which progress is known; no tick after it is progress. */
  dataDate?: string | undefined
  /** Addresses whose line has changed, and whose tick is taken all the same. */
  also?: ReadonlySet<string> | undefined
}

/**
 * Ticks as a patch of the project file. A tick is taken where its line says what it said when the file was made and nothing else is
 * recorded in its place; every other is listed with its reason, none is lost.
 */
export function ticksIntake(input: TicksInput): TicksIntake {
  const records = new Map<string, Record<string, unknown>>()
  const [taken, same, listed, noted]: [TickedLine[], TickedLine[], ListedTick[], Tick[]] = [[], [], [], []]
  for (const tick of inOrder(input.file.ticks)) {
    const place = tickPlace(tick.at) as TickPlace
    const why = staleness(input, tick, place)
    if (place.of === 'sheet') noted.push(tick)
    else if (why !== undefined) listed.push({ ...tick, ...why })
    else {
      const { record, old } = recordOf(input, place, records)
      const said = placed(input, tick, place, records.get(record) ?? old)
      const line = { at: tick.at, says: tick.says, becomes: becomesOf(place), by: tick.by, on: tick.on, record }
      if ('why' in said) listed.push({ ...tick, why: said.why, canBeTaken: false })
      else if (said.value === undefined) same.push(line)
      else {
        records.set(record, said.value)
        taken.push(line)
      }
    }
  }
  return { patch: patchFor(input.document, records), taken, same, listed, noted }
}

/** What was done comes before what was read or checked of it. */
const inOrder = (ticks: readonly Tick[]): Tick[] =>
  [...ticks].sort(
    (a, b) => depthOf(a) - depthOf(b) || Number(a.at.endsWith('/finish')) - Number(b.at.endsWith('/finish')),
  )

const depthOf = ({ at }: Tick): number => (/^\/(services|joints)\//.test(at) ? at.split('/').length : 0)

const DAY = 86_400_000
const HOUR = 3_600_000
const MINUTE = 60_000
/** Clocks of a device without a network and of the host agree no better, ms: common practice, no source. */
const CLOCKS_APART = 5 * MINUTE

/** Why a line is not what it was when it was ticked, or its time is not to be believed. */
function staleness(
  input: TicksInput,
  tick: Tick,
  place: TickPlace,
): Pick<ListedTick, 'why' | 'canBeTaken'> | undefined {
  const says = tickSays(input, place)
  if (says === undefined) return { why: 'it is no longer in the project', canBeTaken: false }
  const untrue = untrueTime(input, tick)
  if (untrue !== undefined) return { why: untrue, canBeTaken: false }
  const doubts = [
    ...aheadThroughout(input),
    ...(place.of === 'sheet' || says === tick.says ? [] : [`the line says now: ${says}`]),
  ]
  if (doubts.length === 0 || input.also?.has(tick.at)) return undefined
  return { why: doubts.join('; '), canBeTaken: true }
}

/** What shows that a tick was not made at the time that it says. */
function untrueTime({ file, now }: TicksInput, { on }: Tick): string | undefined {
  const at = epochOf(on, 'UTC', 'first')
  // a day to either side: the file's date is that of the host, the tick's that of the device
  if (at < epochOf(file.issued, 'UTC', 'first') - DAY)
    return `ticked on ${on}, before the file was made on ${file.issued}: the clock of the device was wrong`
  if (at > epochOf(file.exported, 'UTC', 'first'))
    return `ticked on ${on}, after the ticks were given out on ${file.exported}: the clock of the device was wrong, or the file was changed by hand`
  if (at > now + CLOCKS_APART) return `ticked on ${on}, which is still to come: ${aheadBy(at - now)}`
  return undefined
}

/** A file given out later than now: the clock was ahead at every tick in it, also where a tick alone does not show it. */
function aheadThroughout({ file: { exported }, now }: TicksInput): string[] {
  const ahead = epochOf(exported, 'UTC', 'first') - now
  return ahead > CLOCKS_APART
    ? [`the ticks say that they were given out on ${exported}, which is still to come: ${aheadBy(ahead)}`]
    : []
}

const aheadBy = (ms: number): string => {
  const words = ms < HOUR ? `${Math.round(ms / MINUTE)} min` : `${Math.round(ms / HOUR)} h`
  return `the clock of the device is ahead of that of the host, by ${words} or more`
}

/** Where a tick is recorded, and what is recorded there now. */
function recordOf(
  { project, document }: TicksInput,
  place: Exclude<TickPlace, { of: 'sheet' }>,
  taken: ReadonlyMap<string, Record<string, unknown>>,
): { record: string; old: object | undefined } {
  switch (place.of) {
    case 'service':
      return { record: pointerOf('services', place.id, place.record), old: project.services[place.id]?.[place.record] }
    case 'isolation':
      return {
        record: pointerOf('isolations', place.id, 'signed', place.act),
        old: project.isolations[place.id]?.signed?.[place.act],
      }
    case 'activity':
      return { record: pointerOf('programme', 'progress', place.id), old: project.programme?.progress[place.id] }
    case 'bolts':
      return entryOf(document, {
        name: 'boltRecords',
        entries: project.boltRecords,
        wanted: place.joint,
        taken,
        isOf: ({ joint }) => joint === place.joint,
      })
    case 'lift step': {
      const { lift, step } = place
      return entryOf(document, {
        name: 'liftLog',
        entries: project.liftLog,
        wanted: `${lift}.${step}`,
        taken,
        isOf: (entry) => entry.lift === lift && entry.step === step,
      })
    }
    default:
      return place satisfies never
  }
}

interface Entries<T> {
  name: 'boltRecords' | 'liftLog'
  entries: Readonly<Record<string, T>>
  /** Id of a new entry, where it is free. */
  wanted: string
  taken: ReadonlyMap<string, Record<string, unknown>>
  isOf: (entry: Partial<T>) => boolean
}

/**
 * The last entry of a collection that is of the thing that was ticked; otherwise a new one by an id of its own.
 *
 * @returns the entry as it stands in the file: what the tick says nothing of is written back as it was
 */
function entryOf<T extends object>(
  document: unknown,
  { name, entries, wanted, taken, isOf }: Entries<T>,
): { record: string; old: object | undefined } {
  const known = Object.keys(entries).findLast((id) => isOf(entries[id] as T))
  if (known !== undefined) {
    const record = pointerOf(name, known)
    return { record, old: valueAt(document, record) as object }
  }
  for (let n = 1; ; n += 1) {
    const suffix = n === 1 ? '' : `-${n}`
    const id = `${wanted.slice(0, LONGEST_ID - suffix.length)}${suffix}`
    const made = taken.get(pointerOf(name, id))
    if (!Object.hasOwn(entries, id) && (made === undefined || isOf(made as Partial<T>)))
      return { record: pointerOf(name, id), old: undefined }
  }
}

const LONGEST_ID = 64

/** The whole record with a tick in it; no value where it says nothing new. */
type Placed = { value: Record<string, unknown> | undefined } | { why: string }

function placed(input: TicksInput, tick: Tick, place: TickPlace, old: object | undefined): Placed {
  if (place.of === 'activity') return progressed(input, tick, place.end, { ...old })
  if (place.of === 'bolts') return bolted(tick, place, old as BoltRecord | undefined)
  if (place.of === 'lift step') return logged(tick, place, old as LiftLogEntry | undefined)
  if (place.of === 'service' && place.field !== undefined) return readOff(input, tick, place, old as Service['joined'])
  const [by, on] = [tick.by.trim(), tick.on.slice(0, 10)]
  const is = old as { by: string; on: string } | undefined
  if (is === undefined) return { value: { by, on } }
  return is.by === by && is.on === on ? { value: undefined } : { why: `recorded already, by ${is.by} on ${is.on}` }
}

/** Bolts as they were tightened: all that the line spoke of. What was measured, lot, lubricant and tool are written into the record. */
function bolted(
  tick: Tick,
  { joint, field }: Extract<TickPlace, { of: 'bolts' }>,
  old: BoltRecord | undefined,
): Placed {
  const [by, on] = [tick.by.trim(), tick.on.slice(0, 10)]
  if (field !== undefined) return lookedAt({ by, on }, field, old)
  const bolts = boltsSaid(tick.says)
  if (bolts === undefined) return { why: 'its line does not say how many bolts' }
  if (old === undefined) return { value: { joint, by, on, bolts } }
  return old.by === by && old.on === on && old.bolts === bolts
    ? { value: undefined }
    : { why: `recorded already: ${old.bolts} bolts, by ${old.by} on ${old.on}` }
}

function lookedAt(
  { by, on }: { by: string; on: string },
  field: 'checkedBy' | 'rechecked',
  old: BoltRecord | undefined,
): Placed {
  if (old === undefined) return { why: 'ticked alone: nobody ticked that its bolts were tightened' }
  if (field === 'checkedBy') {
    if (by === old.by) return { why: `${by} tightened them: another person has to look` }
    if (old.checkedBy === undefined) return { value: { ...old, checkedBy: by } }
    return old.checkedBy === by ? { value: undefined } : { why: `recorded already as ${old.checkedBy}` }
  }
  const { rechecked } = old
  if (on < old.on) return { why: `looked at again on ${on}, before they were tightened on ${old.on}` }
  if (rechecked === undefined) return { value: { ...old, rechecked: { by, on } } }
  return rechecked.by === by && rechecked.on === on
    ? { value: undefined }
    : { why: `recorded already, by ${rechecked.by} on ${rechecked.on}` }
}

/** A step of a lift as it was read when it was done. */
function logged(
  tick: Tick,
  { lift, step }: Extract<TickPlace, { of: 'lift step' }>,
  old: LiftLogEntry | undefined,
): Placed {
  const value = { lift, step, what: tick.says, by: tick.by.trim(), on: tick.on }
  if (old === undefined) return { value }
  return old.by === value.by && old.on === value.on && old.what === value.what
    ? { value: undefined }
    : { why: `recorded already, by ${old.by} on ${old.on}: ${old.what}` }
}

/** Tag, port and second person belong to what was done: they are kept with it. */
function readOff(
  { project }: TicksInput,
  tick: Tick,
  { id, record, field }: Extract<TickPlace, { of: 'service' }>,
  old: Service['joined'],
): Placed {
  if (field === undefined) throw new Error('nothing was read')
  if (old === undefined) return { why: 'ticked alone: nobody ticked that it was parted or joined' }
  const by = tick.by.trim()
  if (field === 'checkedBy' && by === old.by) return { why: `${by} joined it: another person has to look` }
  const before = project.services[id]?.[record]
  if (field !== 'checkedBy' && before !== undefined && before.by !== by)
    return { why: `${by} read it, and ${before.by} is recorded with it: look at it together` }
  const value = field === 'checkedBy' ? by : tagRead(tick, project.services[id]?.tag ?? id)
  if (old[field] === undefined) return { value: { ...old, [field]: value } }
  return old[field] === value ? { value: undefined } : { why: `recorded already as ${old[field]}` }
}

/** The tag that stood on the line that was ticked; where the line has changed since, that is not the tag of now. */
const tagRead = ({ says }: Tick, now: string): string =>
  says.startsWith(`tag ${now} · `) ? now : (/^tag (.+?) · /.exec(says)?.[1] ?? now)

function progressed(
  { project, dataDate }: TicksInput,
  tick: Tick,
  end: 'start' | 'finish',
  old: Record<string, unknown>,
): Placed {
  const zone = project.programme?.timeZone ?? 'UTC'
  const known = dataDate ?? project.programme?.dataDate
  if (old[end] !== undefined)
    return old[end] === tick.on ? { value: undefined } : { why: `recorded already: ${String(old[end])}` }
  if (known === undefined) return { why: 'no data date: say up to when progress is known' }
  if (epochOf(tick.on, zone, 'first') > epochOf(known, zone, 'last'))
    return { why: `after ${known}, up to which progress is known: say a later date` }
  const { remainingDays, logic, ...rest } = old
  const kept = { ...rest, ...(logic === 'released' ? { logic } : {}) }
  // what is finished has nothing left
  return {
    value: { ...kept, ...(end === 'start' && remainingDays !== undefined ? { remainingDays } : {}), [end]: tick.on },
  }
}

function becomesOf(place: Exclude<TickPlace, { of: 'sheet' }>): Becomes {
  switch (place.of) {
    case 'service':
      if (place.field !== undefined) return place.field === 'checkedBy' ? 'checked' : 'read'
      return place.record === 'parted' ? 'out' : 'back'
    case 'isolation':
      return place.act
    case 'activity':
      return place.end === 'start' ? 'begun' : 'done'
    case 'bolts':
      if (place.field === undefined) return 'tightened'
      return place.field === 'checkedBy' ? 'checked' : 'looked at again'
    case 'lift step':
      return 'in the lift log'
    default:
      return place satisfies never
  }
}
