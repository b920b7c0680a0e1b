import { describe, expect, test } from 'vitest'
import { freshMemory } from '../../working/memory.ts'
import { applyPatch } from '../../working/patch.ts'
import { model } from '../model.ts'
import { type TickGround, tickPlace, tickSays } from './tickPlace.ts'
import { ticksIntake } from './ticks.ts'
import { TICKS_FORM, type Tick, type TicksFile } from './ticksFile.ts'

type Raw = Readonly<Record<string, unknown>>

const BOLTS = { thread: 'M36', grade: '10.9', count: 24, preload: '510 kN', timeOff: '4 min', timeOn: '5 min' }
const ball = (name: string, x: string): Raw => ({
  name,
  material: 'steel',
  solids: [{ shape: 'sphere', radius: '1 m', centre: [x, '0 m', '0 m'] }],
})
const STEPS = ['Read this sheet with everyone who takes part.', 'Rig as in C.', 'Set down.']

/** Two bodies with a bolted joint between them, and a lift of one; whatever else is given. */
const machine = (more: Raw = {}, bolts: Raw = BOLTS): Raw => ({
  schemaVersion: 1,
  about: { title: 'Small' },
  materials: { steel: { density: '7850 kg/m3' } },
  parts: { A: ball('Crown', '0 m'), B: ball('Hub', '2 m') },
  joints: { J1: { kind: 'bolted', between: ['A', 'B'], access: 'front', bolts } },
  pieces: { crown: { name: 'Crown', parts: ['A'] } },
  systems: { tower: { name: 'Tower', kind: 'lift tower', hooks: { main: { name: 'Main' } } } },
  lifts: { 'crown-out': { piece: 'crown', kind: 'out', system: 'tower', hook: 'main' } },
  ...more,
})

function groundOf(document: Raw, steps: readonly string[] = STEPS): TickGround {
  const { model: read, problems } = model(document, freshMemory())
  if (read === undefined) throw new Error(JSON.stringify(problems))
  return { project: read.project, activities: {}, liftSteps: (id) => (id === 'crown-out' ? steps : []) }
}

const saysNow = (at: string, document = machine()): string =>
  tickSays(groundOf(document), tickPlace(at) as NonNullable<ReturnType<typeof tickPlace>>) ?? 'gone'

const [TIGHT, STEP_2] = ['/joints/J1/tightened', '/lifts/crown-out/steps/2']
const tick = (at: string, by = 'A. Fitter', on = '2032-03-08T07:41+01:00'): Tick => ({ at, says: saysNow(at), by, on })

interface Taking {
  document?: Raw
  steps?: readonly string[]
  also?: readonly string[]
}

function taken(ticks: readonly Tick[], { document = machine(), steps, also = [] }: Taking = {}) {
  const file: TicksFile = {
    form: TICKS_FORM,
    version: 1,
    project: 'Small',
    content: 'a'.repeat(64),
    scope: 'step S1',
    issued: '2032-03-08',
    exported: '2032-03-09T17:00+01:00',
    ticks: [...ticks],
  }
  const now = Date.parse('2032-03-10T06:00Z')
  const intake = ticksIntake({ ...groundOf(document, steps), file, document, now, also: new Set(also) })
  const patched = applyPatch(document, intake.patch)
  if (!('document' in patched)) throw new Error('the patch does not apply')
  const read = model(patched.document, freshMemory())
  if (read.model === undefined) throw new Error(JSON.stringify(read.problems))
  return { ...intake, after: patched.document as Record<string, Record<string, Raw>> }
}

const whyOf = ({ listed }: ReturnType<typeof taken>): string[] => listed.map((l) => `${l.at}: ${l.why}`)

describe('bolts of a joint', () => {
  test('tightened, looked at by another and again after they settled: one record, whatever the order of the ticks', () => {
    const { after, taken: lines } = taken([
      tick(`${TIGHT}/rechecked`, 'Foreman', '2032-03-09T09:00+01:00'),
      tick(`${TIGHT}/checkedBy`, 'Foreman'),
      tick(TIGHT),
    ])
    expect(after.boltRecords).toEqual({
      J1: {
        joint: 'J1',
        by: 'A. Fitter',
        on: '2032-03-08',
        bolts: 24,
        checkedBy: 'Foreman',
        rechecked: { by: 'Foreman', on: '2032-03-09' },
      },
    })
    expect(lines.map((l) => l.becomes)).toEqual(['tightened', 'looked at again', 'checked'])
    expect(new Set(lines.map((l) => l.record))).toEqual(new Set(['/boltRecords/J1']))
  })

  test('what stands on a record beside is kept as it was written, preloads with their units', () => {
    const record = {
      joint: 'J1',
      by: 'A. Fitter',
      on: '2032-03-08',
      bolts: 24,
      lot: 'L-7',
      samples: { s1: { bolt: 3, preload: '498 kN' } },
    }
    const { after } = taken([tick(`${TIGHT}/checkedBy`, 'Foreman')], {
      document: machine({ boltRecords: { B9: record } }),
    })
    expect(after.boltRecords).toEqual({ B9: { ...record, checkedBy: 'Foreman' } })
  })

  test('an id that another joint’s record has is left to it', () => {
    const other = { joint: 'J2', by: 'A. Fitter', on: '2032-03-01', bolts: 4 }
    const joints = {
      J1: { kind: 'bolted', between: ['A', 'B'], access: 'front', bolts: BOLTS },
      J2: { kind: 'bolted', between: ['A', 'B'], access: 'front', bolts: BOLTS },
    }
    const { after } = taken([tick(TIGHT), tick(`${TIGHT}/checkedBy`, 'Foreman')], {
      document: machine({ joints, boltRecords: { J1: other } }),
    })
    expect(after.boltRecords?.J1).toEqual(other)
    expect(after.boltRecords?.['J1-2']).toMatchObject({ joint: 'J1', checkedBy: 'Foreman' })
  })

  test('recorded already by another, or of fewer bolts, is said with what is recorded; the same is the same', () => {
    const of = (record: Raw) => ({ document: machine({ boltRecords: { B1: { joint: 'J1', ...record } } }) })
    const night = taken([tick(TIGHT)], of({ by: 'Night fitter', on: '2032-03-07', bolts: 24 }))
    expect([night.patch, whyOf(night)]).toEqual([
      [],
      [`${TIGHT}: recorded already: 24 bolts, by Night fitter on 2032-03-07`],
    ])
    const part = taken([tick(TIGHT)], of({ by: 'A. Fitter', on: '2032-03-08', bolts: 20 }))
    expect(whyOf(part)[0]).toContain('recorded already: 20 bolts')
    const same = taken([tick(TIGHT)], of({ by: 'A. Fitter', on: '2032-03-08', bolts: 24 }))
    expect([same.patch, same.same.length, same.listed]).toEqual([[], 1, []])
  })

  test('nobody looks at their own bolts, nor again before they are tightened, nor at bolts that nobody tightened', () => {
    const own = taken([
      tick(TIGHT),
      tick(`${TIGHT}/checkedBy`),
      tick(`${TIGHT}/rechecked`, 'Foreman', '2032-03-07T23:59+01:00'),
    ])
    expect(whyOf(own).join()).toMatch(/another person has to look.*looked at again on 2032-03-07, before/)
    expect(whyOf(taken([tick(`${TIGHT}/checkedBy`, 'Foreman')]))[0]).toContain('ticked alone')
  })

  test('another preload since then is another line; taken all the same, as many bolts as were ticked', () => {
    const document = machine({}, { ...BOLTS, count: 30, preload: '560 kN' })
    expect(whyOf(taken([tick(TIGHT)], { document }))[0]).toContain('the line says now: 30 bolts M36 10.9')
    const { after } = taken([tick(TIGHT)], { document, also: [TIGHT] })
    expect(after.boltRecords?.J1?.bolts).toBe(24)
  })

  test('a joint that is gone, or no longer bolted, keeps its tick in sight', () => {
    const joints = { J1: { kind: 'welded', between: ['A', 'B'], access: 'front' } }
    for (const document of [machine({ joints: {} }), machine({ joints })])
      expect(taken([tick(TIGHT)], { document })).toMatchObject({
        patch: [],
        listed: [{ by: 'A. Fitter', why: 'it is no longer in the project' }],
      })
  })
})

describe('steps of a lift', () => {
  test('a step that was done stands in the lift log in the words that were read, by whom and at which minute', () => {
    const { after, taken: lines } = taken([tick(STEP_2)])
    expect(after.liftLog).toEqual({
      'crown-out.2': {
        lift: 'crown-out',
        step: 2,
        what: 'Rig as in C.',
        by: 'A. Fitter',
        on: '2032-03-08T07:41+01:00',
      },
    })
    expect(lines[0]).toMatchObject({ becomes: 'in the lift log', record: '/liftLog/crown-out.2' })
    const again = taken([tick(STEP_2)], { document: after })
    expect([again.patch, again.same.length]).toEqual([[], 1])
  })

  test('logged by another already, a sheet with other steps now, a lift that is gone: each is said, none is lost', () => {
    const { after } = taken([tick(STEP_2)])
    const other = taken([tick(STEP_2, 'B. Rigger')], { document: after })
    expect([other.patch, whyOf(other)[0]]).toEqual([
      [],
      expect.stringContaining('recorded already, by A. Fitter on 2032-03-08T07:41+01:00: Rig as in C.'),
    ])
    const steps = ['Read.', 'Rig as in D.']
    const changed = taken([tick(STEP_2), tick('/lifts/crown-out/steps/3')], { steps })
    expect(whyOf(changed)).toEqual([
      `${STEP_2}: the line says now: Rig as in D.`,
      '/lifts/crown-out/steps/3: it is no longer in the project',
    ])
    expect(taken([tick(STEP_2)], { steps, also: [STEP_2] }).after.liftLog?.['crown-out.2']?.what).toBe('Rig as in C.')
    const gone = taken([tick(STEP_2)], { document: machine({ lifts: {} }), steps: [] })
    expect(whyOf(gone)).toEqual([`${STEP_2}: it is no longer in the project`])
  })

  test('words of two lines are read as one: the file of ticks holds no line breaks', () => {
    const at = '/lifts/crown-out/steps/1'
    const ground = groundOf(machine(), ['Read\nthis\u202e sheet'])
    expect(tickSays(ground, tickPlace(at) as NonNullable<ReturnType<typeof tickPlace>>)).toBe('Read this  sheet')
  })

  test('an entry of a lift that is none is refused at its place', () => {
    const entry = { lift: 'no-such', step: 1, what: 'Rig', by: 'A. Fitter', on: '2032-03-08' }
    const { problems } = model(machine({ liftLog: { e: entry } }), freshMemory())
    expect(problems.map((p) => p.pointer)).toEqual(['/liftLog/e/lift'])
  })
})
