import { z } from 'zod'
import { belowGround } from './below.ts'
import { collection, date, id, name, note } from './field.ts'
import { boltRecord, inspection, weld } from './inspections.ts'
import { type arrangement, gear, lift, type move, piece, step, stockItem, system, weighing } from './lifting.ts'
import { change, isolation, joint, machine, material, part, service } from './machine.ts'
import { correlation, programme, risk, test } from './programme.ts'
import { diaryEntry, issuedBook, liftLogEntry, punchItem } from './records.ts'
import { scenario } from './scenario.ts'
import { settings } from './settings.ts'
import { bay, climate, cradle, ground, shaft, transport, utility } from './site.ts'
import { SCHEMA_VERSION } from './version.ts'
import { savedView } from './views.ts'
import { temporaryWork } from './works.ts'

export { SCHEMA_VERSION }

const about = z.strictObject({
  title: name,
  invented: z.boolean().optional(),
  date: date.optional(),
  currency: z.string().max(12).optional(),
  note,
})

/** Sections that hold one thing. */
export const singles = { about, settings, machine, shaft, cradle, ground, climate, programme, belowGround }

/** Sections that hold things by id, and the shape of one. */
export const collections = {
  materials: material,
  parts: part,
  joints: joint,
  services: service,
  ends: z.strictObject({ name }),
  isolations: isolation,
  changes: change,
  bays: bay,
  utilities: utility,
  transports: transport,
  systems: system,
  gear,
  stock: stockItem,
  pieces: piece,
  lifts: lift,
  steps: step,
  temporaryWorks: temporaryWork,
  weighings: weighing,
  tests: test,
  inspections: inspection,
  welds: weld,
  boltRecords: boltRecord,
  liftLog: liftLogEntry,
  diary: diaryEntry,
  punchList: punchItem,
  issuedBooks: issuedBook,
  risks: risk,
  correlations: correlation,
  scenarios: scenario,
  views: savedView,
}

/** The whole project file. The JSON Schema is generated from this. */
export const project = z
  .strictObject({
    schemaVersion: z.literal(SCHEMA_VERSION),
    about,
    settings: settings.optional(),
    machine: machine.optional(),
    shaft: shaft.optional(),
    cradle: cradle.optional(),
    ground: ground.optional(),
    climate: climate.optional(),
    programme: programme.optional(),
    belowGround: belowGround.optional(),
    materials: collection(material),
    parts: collection(part),
    joints: collection(joint),
    services: collection(service),
    ends: collection(collections.ends),
    isolations: collection(isolation),
    changes: collection(change),
    bays: collection(bay),
    utilities: collection(utility),
    transports: collection(transport),
    systems: collection(system),
    gear: collection(gear),
    stock: collection(stockItem),
    pieces: collection(piece),
    lifts: collection(lift),
    steps: collection(step),
    /** Ids of steps in the order adopted. */
    order: z.array(id).default([]),
    temporaryWorks: collection(temporaryWork),
    weighings: collection(weighing),
    tests: collection(test),
    inspections: collection(inspection),
    welds: collection(weld),
    boltRecords: collection(boltRecord),
    liftLog: collection(liftLogEntry),
    diary: collection(diaryEntry),
    punchList: collection(punchItem),
    issuedBooks: collection(issuedBook),
    risks: collection(risk),
    correlations: collection(correlation),
    scenarios: collection(scenario),
    views: collection(savedView),
  })
  .meta({
    title: 'Shieldwright project',
    description: 'Inputs of a recovery. Every quantity carries its unit as text.',
  })

type Out<T extends z.ZodType> = z.output<T>
export type Solid = Part['solids'][number]
export type Scenario = Out<typeof scenario>
export type SavedView = Out<typeof savedView>
export type Part = Out<typeof part>
export type Joint = Out<typeof joint>
export type Service = Out<typeof service>
export type Change = Out<typeof change>
export type Piece = Out<typeof piece>
export type Lift = Out<typeof lift>
export type Step = Out<typeof step>
export type Move = Out<typeof move>
export type System = Out<typeof system>
export type Gear = Out<typeof gear>
export type StockItem = Out<typeof stockItem>
export type Arrangement = Out<typeof arrangement>
export type TemporaryWork = Out<typeof temporaryWork>
export type Weighing = Out<typeof weighing>
export type Bay = Out<typeof bay>
export type Settings = Out<typeof settings>
export type Programme = Out<typeof programme>
export type BelowGround = Out<typeof belowGround>
export type Ground = Out<typeof ground>
export type Instrument = Ground['instruments'][string]
export type Shaft = Out<typeof shaft>
export type Cradle = Out<typeof cradle>
export type Machine = Out<typeof machine>
export type Material = Out<typeof material>
export type Climate = Out<typeof climate>
export type Risk = Out<typeof risk>
export type Correlation = Out<typeof correlation>
export type DiaryEntry = Out<typeof diaryEntry>
export type PunchItem = Out<typeof punchItem>
export type IssuedBook = Out<typeof issuedBook>
export type Inspection = Out<typeof inspection>
export type Weld = Out<typeof weld>
export type BoltRecord = Out<typeof boltRecord>
export type LiftLogEntry = Out<typeof liftLogEntry>
export type Test = Out<typeof test>
export type Isolation = Out<typeof isolation>
export type Transport = Out<typeof transport>
export type Utility = Out<typeof utility>

type Singles = { [K in keyof typeof singles]: Out<(typeof singles)[K]> }
type Collections = { [K in keyof typeof collections]: Readonly<Record<string, Out<(typeof collections)[K]>>> }

/** Everything read: quantities are inputs with their address, in SI. */
export type ReadProject = Pick<Singles, 'about' | 'settings'> &
  Partial<Omit<Singles, 'about' | 'settings'>> &
  Collections & { order: readonly string[] }
