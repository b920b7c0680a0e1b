import { pointerOf } from '../../working/pointer.ts'
import { writeQuantity } from '../../working/quantity.ts'
import type { IntakeInput } from './intake.ts'
import { dayIn, daysIn, idIn, momentIn, quantityIn, type RowReader } from './row.ts'

export const SHEET_KINDS = ['progress', 'deliveries', 'as-built', 'weighings', 'readings', 'piles', 'services'] as const
export type SheetKind = (typeof SHEET_KINDS)[number]

/** What one row says, and of what. */
interface Entry {
  pointer: string
  value: Raw
}

export type Raw = Readonly<Record<string, unknown>>

/** How the rows of one kind of table are read. */
interface Sheet {
  /** The column that names what a row is about. */
  key: string
  reads: readonly string[]
  /** Columns that help a reader and are not read. */
  ignores: readonly string[]
  /** A row that says nothing of what it is about. */
  isSilent: (reader: RowReader) => boolean
  read: (reader: RowReader, input: IntakeInput) => Entry | undefined
  merged: (old: unknown, value: Raw) => unknown
  /** Where several rows speak of one thing: columns that its first row must fill, and how a further row adds to it. */
  first?: readonly string[]
  further?: (reader: RowReader, sofar: Raw, next: Raw) => Raw
}

const isRecord = (value: unknown): value is Raw => typeof value === 'object' && value !== null && !Array.isArray(value)

/** What is said anew over what stands. */
const over = (old: unknown, value: Raw): Raw => ({ ...(isRecord(old) ? old : {}), ...known(value) })

const known = (value: Raw): Raw => Object.fromEntries(Object.entries(value).filter(([, v]) => v !== undefined))

/** What is finished has nothing left. */
function overProgress(old: unknown, value: Raw): Raw {
  const { remainingDays, ...rest } = over(old, value)
  return rest.finish === undefined && remainingDays !== undefined ? { ...rest, remainingDays } : rest
}

const silent =
  (...columns: string[]) =>
  ({ text }: RowReader): boolean =>
    columns.every((column) => text(column) === undefined)

function progressRow(reader: RowReader, { activities }: IntakeInput): Entry | undefined {
  const id = idIn(reader, 'activity', 'an activity', activities)
  const logic = reader.text('logic')
  if (logic !== undefined && logic !== 'retained' && logic !== 'released')
    reader.refuse('logic', '"retained" or "released"', 'retained')
  const value = {
    start: momentIn(reader, 'start'),
    finish: momentIn(reader, 'finish'),
    remainingDays: daysIn(reader, 'remaining days'),
    logic,
    note: reader.text('note'),
  }
  return id === undefined ? undefined : { pointer: pointerOf('programme', 'progress', id), value }
}

/** A delivery is on its way from order to arrival: the progress of its activity. */
function deliveryRow(reader: RowReader, { project }: IntakeInput): Entry | undefined {
  const deliveries = project.programme?.deliveries ?? {}
  const id = idIn(reader, 'delivery', 'a delivery', new Set(Object.keys(deliveries)))
  const activity = id === undefined ? undefined : deliveries[id]?.activity
  const value = {
    start: momentIn(reader, 'ordered'),
    finish: momentIn(reader, 'arrived'),
    remainingDays: daysIn(reader, 'days to go'),
    note: reader.text('note'),
  }
  return activity === undefined ? undefined : { pointer: pointerOf('programme', 'progress', activity), value }
}

const AXES = ['x', 'y', 'z'] as const

/** Three coordinates, all or none of them. */
function pointIn(reader: RowReader, frame: string): string[] | undefined {
  const at = AXES.map((axis) => quantityIn(reader, `${frame} ${axis}`, 'm'))
  const given = AXES.filter((axis) => reader.text(`${frame} ${axis}`) !== undefined)
  if (given.length === 0) return undefined
  for (const axis of AXES)
    if (!given.includes(axis)) reader.refuse(`${frame} ${axis}`, 'a length with its unit, as the other two', '3.0469 m')
  return at.every((c) => c !== undefined) ? (at as string[]) : undefined
}

/** A point of the machine as it was surveyed. */
function surveyRow(reader: RowReader, { project }: IntakeInput): Entry | undefined {
  const id = reader.text('point')
  if (id === undefined || !ID.test(id)) return reader.refuse('point', EXPECTED_ID, 'flange-left')
  const value = {
    machine: pointIn(reader, 'machine'),
    site: pointIn(reader, 'site'),
    accuracy: quantityIn(reader, 'accuracy', 'm'),
  }
  if (project.machine?.pose.survey[id] === undefined)
    for (const [field, column] of [
      ['machine', 'machine x'],
      ['site', 'site x'],
      ['accuracy', 'accuracy'],
    ] as const)
      if (value[field] === undefined && reader.problems.length === 0)
        reader.refuse(column, `it: "${id}" is a new point, and has none yet`, field === 'accuracy' ? '3 mm' : '0.09 m')
  return { pointer: pointerOf('machine', 'pose', 'survey', id), value }
}

const ID = /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/
const EXPECTED_ID = 'an id of letters, digits, ".", "-" and "_"'

function weighingRow(reader: RowReader, { project }: IntakeInput): Entry | undefined {
  const id = reader.text('weighing')
  if (id === undefined || !ID.test(id)) return reader.refuse('weighing', EXPECTED_ID, 'crown-2032-11-09')
  const isNew = project.weighings[id] === undefined
  const piece =
    isNew || reader.text('piece') !== undefined
      ? idIn(reader, 'piece', 'a piece', new Set(Object.keys(project.pieces)))
      : undefined
  const lift =
    reader.text('lift') === undefined ? undefined : idIn(reader, 'lift', 'a lift', new Set(Object.keys(project.lifts)))
  const value = {
    piece,
    measured: quantityIn(reader, 'measured', 'kg'),
    accuracy: shareIn(reader, 'accuracy'),
    date: dayIn(reader, 'date'),
    lift,
    includes: reader.text('includes'),
  }
  if (isNew && value.measured === undefined && reader.text('measured') === undefined)
    reader.refuse('measured', 'what the load cells read net of rigging, with its unit', '47.6 t')
  if (isNew && value.accuracy === undefined && reader.text('accuracy') === undefined)
    reader.refuse('accuracy', 'the standard accuracy as a share', '0.015')
  return { pointer: pointerOf('weighings', id), value }
}

/** One reading of an instrument: on one moment it has one. */
function readingRow(reader: RowReader, { project }: IntakeInput): Entry | undefined {
  const instruments = project.ground?.instruments ?? {}
  const id = idIn(reader, 'instrument', 'an instrument of the ground', new Set(Object.keys(instruments)))
  const on = momentIn(reader, 'on')
  if (on === undefined && reader.text('on') === undefined)
    reader.refuse('on', 'the moment of the reading: a day, or local time on it', '2032-10-04T07:30')
  const is = id === undefined ? undefined : instruments[id]
  if (id === undefined || on === undefined || is === undefined) return undefined
  const reading = quantityIn(reader, 'reading', is.alert.unit)
  if (reading === undefined && reader.text('reading') === undefined)
    reader.refuse('reading', `what ${id} read, with its unit`, writeQuantity(is.alert.value as number, is.alert.unit))
  return { pointer: pointerOf('ground', 'instruments', id, 'readings', on), value: { reading } }
}

const SERVICE_TEXTS = ['kind', 'medium', 'from', 'to', 'size', 'isolation', 'tag'] as const
const SERVICE_READS = [
  'service',
  ...SERVICE_TEXTS,
  ...['length', 'pressure', 'voltage', 'drained', 'time off', 'time on'],
  ...['parted by', 'parted on', 'tag off', 'joined by', 'joined on', 'tag on', 'port', 'checked by'],
]
const ALWAYS = ['kind', 'medium', 'from', 'to', 'time off', 'time on']

/** A hose, cable or pipe, with who parted it, who joined it, and the tags that were read then. */
function serviceRow(reader: RowReader, { project }: IntakeInput): Entry | undefined {
  const id = reader.text('service')
  if (id === undefined || !ID.test(id)) return reader.refuse('service', EXPECTED_ID, 'W-MM01I')
  const old = project.services[id]
  if (old === undefined)
    for (const column of ALWAYS)
      if (reader.text(column) === undefined)
        reader.refuse(
          column,
          `it: "${id}" is a new service, and has none yet`,
          column.startsWith('time') ? '7 min' : 'hose',
        )
  const value = {
    ...Object.fromEntries(SERVICE_TEXTS.map((column) => [column, serviceText(reader, column, id, old)])),
    length: quantityIn(reader, 'length', 'm', old?.length?.value),
    pressure: quantityIn(reader, 'pressure', 'Pa', old?.pressure?.value),
    voltage: quantityIn(reader, 'voltage', 'V', old?.voltage?.value),
    drained: quantityIn(reader, 'drained', 'm3', old?.drained?.value),
    timeOff: quantityIn(reader, 'time off', 's', old?.timeOff?.value),
    timeOn: quantityIn(reader, 'time on', 's', old?.timeOn?.value),
    parted: recordIn(reader, 'parted', { tag: reader.text('tag off') }, old?.parted),
    joined: recordIn(
      reader,
      'joined',
      { tag: reader.text('tag on'), port: reader.text('port'), checkedBy: reader.text('checked by') },
      old?.joined,
    ),
  }
  return { pointer: pointerOf('services', id), value }
}

/** A tag that is the service's id is none of its own. */
function serviceText(reader: RowReader, column: (typeof SERVICE_TEXTS)[number], id: string, old: Raw | undefined) {
  const text = reader.text(column)
  return column === 'tag' && text === id && old?.tag === undefined ? undefined : text
}

/** Who did it, on which day, and what was read; over what was recorded before. */
function recordIn(reader: RowReader, what: string, read: Raw, old: Raw | undefined): Raw | undefined {
  const said = known({ by: reader.text(`${what} by`), on: dayIn(reader, `${what} on`), ...read })
  if (Object.keys(said).length === 0) return undefined
  const whole: Raw = { ...known(old ?? {}), ...said }
  if (whole.by === undefined) reader.refuse(`${what} by`, 'who did it', 'hydraulics fitter')
  if (whole.on === undefined && reader.text(`${what} on`) === undefined)
    reader.refuse(`${what} on`, 'the day on which it was done', '2032-10-19')
  return whole
}

const PILE_HEAD = ['head x', 'head y'] as const
const PILE_LOW = ['low x', 'low y', 'low z'] as const
const PILE = [...PILE_HEAD, ...PILE_LOW]

/** A pile or panel of the shaft wall as it was surveyed: at the collar and at a lower level; in more rows at levels further down, each without its head. */
function pileRow(reader: RowReader): Entry | undefined {
  const id = reader.text('pile')
  if (id === undefined || !ID.test(id)) return reader.refuse('pile', EXPECTED_ID, 'P17')
  const at = PILE.map((column) => quantityIn(reader, column, 'm'))
  const isFurther = PILE_HEAD.every((column) => reader.text(column) === undefined)
  for (const column of isFurther ? PILE_LOW : PILE)
    if (reader.text(column) === undefined) reader.refuse(column, 'a length with its unit, site frame', '10.82 m')
  const low = { low: at.slice(2, 4), lowAt: at[4] }
  return {
    pointer: pointerOf('shaft', 'wall', 'asBuilt', id),
    value: isFurther ? low : { head: at.slice(0, 2), ...low },
  }
}

/** A lower point of a pile whose head stands in an earlier row: what was its lowest is now on the way to it. */
function furtherPoint(reader: RowReader, sofar: Raw, next: Raw): Raw {
  if (next.head !== undefined) reader.refuse('head x', 'the head of each pile once: empty in its further rows')
  const between = [...((sofar.between as unknown[] | undefined) ?? []), { at: sofar.low, z: sofar.lowAt }]
  return { ...sofar, between, ...next }
}

/** A share as a plain number, or in per cent. */
function shareIn(reader: RowReader, column: string): number | string | undefined {
  const text = quantityIn(reader, column, '1')
  return text !== undefined && /^[\d.]+$/.test(text) ? Number(text) : text
}

const REMARKS = ['name', 'what', 'planned start', 'planned finish', 'planned arrival', 'first needed by', 'needed on']

export const SHEETS: Readonly<Record<SheetKind, Sheet>> = {
  progress: {
    key: 'activity',
    reads: ['activity', 'start', 'finish', 'remaining days', 'logic', 'note'],
    ignores: REMARKS,
    isSilent: silent('start', 'finish', 'remaining days', 'logic', 'note'),
    read: progressRow,
    merged: overProgress,
  },
  deliveries: {
    key: 'delivery',
    reads: ['delivery', 'ordered', 'arrived', 'days to go', 'note'],
    ignores: [...REMARKS, 'activity'],
    isSilent: silent('ordered', 'arrived', 'days to go', 'note'),
    read: deliveryRow,
    merged: overProgress,
  },
  'as-built': {
    key: 'point',
    reads: ['point', 'machine x', 'machine y', 'machine z', 'site x', 'site y', 'site z', 'accuracy'],
    ignores: [],
    isSilent: silent('point', 'machine x', 'machine y', 'machine z', 'site x', 'site y', 'site z', 'accuracy'),
    read: surveyRow,
    merged: over,
  },
  weighings: {
    key: 'weighing',
    reads: ['weighing', 'piece', 'measured', 'accuracy', 'date', 'lift', 'includes'],
    ignores: [],
    isSilent: silent('weighing', 'piece', 'measured', 'accuracy', 'date', 'lift', 'includes'),
    read: weighingRow,
    merged: over,
  },
  piles: {
    key: 'pile',
    reads: ['pile', ...PILE],
    ignores: REMARKS,
    isSilent: silent('pile', ...PILE),
    read: pileRow,
    first: ['head x', 'head y'],
    further: furtherPoint,
    merged: (_, value) => value,
  },
  readings: {
    key: 'instrument',
    reads: ['instrument', 'on', 'reading'],
    ignores: REMARKS,
    isSilent: silent('instrument', 'on', 'reading'),
    read: readingRow,
    merged: (_, { reading }) => reading,
  },
  services: {
    key: 'service',
    reads: SERVICE_READS,
    ignores: ['place', 'step', 'stored energy', 'state'],
    isSilent: silent(...SERVICE_READS.slice(1)),
    read: serviceRow,
    merged: over,
  },
}
