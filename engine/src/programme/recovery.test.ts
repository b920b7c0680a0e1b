import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import type { GroundResult } from '../ground/index.ts'
import { mass } from '../mass/index.ts'
import { model } from '../model/index.ts'
import { readText } from '../model/text.ts'
import { type StripResult, strip } from '../strip/index.ts'
import { freshMemory } from '../working/memory.ts'
import { applyPatch, type Operation, type Patch } from '../working/patch.ts'
import { liftsOf, stripOf } from './programme.fixture.ts'
import { type ProgrammeResult, programme } from './programme.ts'
import { peakUse, violations } from './residual.ts'
import { dateOfDay, dayNumber, localAt, type Zone } from './zone.ts'

const textOf = (name: string): string =>
  readFileSync(new URL(`../../../examples/recovery/${name}`, import.meta.url), 'utf8')
const { document } = readText(textOf('project.yaml'))

function programmeOf(file: unknown, stripped?: StripResult): ProgrammeResult {
  const memory = freshMemory()
  const read = model(file, memory)
  if (read.model === undefined) throw new Error(JSON.stringify(read.problems.slice(0, 3)))
  const masses = mass(read.model, memory)
  const order = stripped ?? strip(read.model, masses, memory)
  const hours = Object.fromEntries(Object.keys(read.model.project.lifts).map((id) => [id, { hours: 9 }]))
  return programme(read.model, masses, order, liftsOf(hours), {} as GroundResult, memory)
}

function patched(file: unknown, patch: Patch): unknown {
  const result = applyPatch(file, patch)
  if ('problems' in result) throw new Error(JSON.stringify(result.problems))
  return result.document
}

/** Day after the last working day, as the independent dates are counted. */
const dayAfter = (zone: Zone, finish: number): string => dateOfDay(dayNumber(localAt(zone, finish - 1).date) + 1)

describe('the typed plan against dates from another program (generator of the invented data: unlimited resources)', () => {
  const typed = patched(document, [
    ...(readText(textOf('typed-activities.yaml'), 'yaml').document as Operation[]),
    { op: 'remove', path: '/programme/work' },
    { op: 'remove', path: '/programme/changeWork' },
    { op: 'remove', path: '/programme/deliveries' },
    { op: 'remove', path: '/programme/options' },
    { op: 'remove', path: '/correlations' },
    { op: 'remove', path: '/risks' },
    { op: 'remove', path: '/tests' },
    { op: 'replace', path: '/order', value: [] },
  ])
  const result = programmeOf(withoutSteps(typed), stripOf([]))
  const zone = result.solved?.zone as Zone

  test('every activity ends on its day, and the restart comes on 2033-05-22', () => {
    for (const row of FINISHES.trim().split(/,\s*/)) {
      const [id, date] = row.split(' ') as [string, string]
      const finish = result.plan[id]?.earlyFinish as number
      expect(`${id} ${dayAfter(zone, finish)}`).toBe(`${id} ${date}`)
    }
    expect(dayAfter(zone, result.restartUnlimited as number)).toBe('2033-05-22')
  })

  test('with resources it need not be later: the plan is proven, six weeks before the other program’s serial plan', () => {
    expect(dayAfter(zone, result.restart as number)).toBe('2033-05-22')
    expect(result.proven).toBe(true)
  })
})

/** Links to steps, changes and tests that are not there. */
function withoutSteps(file: unknown): unknown {
  const { programme: typed } = file as { programme: { activities: Record<string, Record<string, unknown>> } }
  const gone = ['afterSteps', 'beforeSteps', 'afterReturn', 'beforeReturn', 'afterTests', 'beforeTests', 'overrides']
  return patched(
    file,
    Object.entries(typed.activities).flatMap(([id, activity]) =>
      gone
        .filter((field) => field in activity)
        .map((field): Operation => ({ op: 'remove', path: `/programme/activities/${id}/${field}` })),
    ),
  )
}

describe('the derived plan of the invented recovery', () => {
  const result = programmeOf(document)
  const activities = Object.values(result.activities)

  test('more than 300 activities follow from the order, the joints, the services, the changes and the tests', () => {
    const made = activities.filter((a) => a.kind !== 'typed' && a.kind !== 'milestone')
    expect(made.length).toBeGreaterThan(300)
    for (const a of made) expect(a.from.length, a.id).toBeGreaterThan(0)
  })

  test('every joint opened is closed again, every service parted is reconnected', () => {
    const of = (kind: string, section: string) =>
      new Set(activities.filter((a) => a.kind === kind).flatMap((a) => a.from.filter((p) => p.startsWith(section))))
    expect(of('close', '/joints')).toEqual(of('open', '/joints'))
    expect(of('reconnect', '/services')).toEqual(of('part', '/services'))
    expect(of('part', '/services').size).toBeGreaterThan(100)
  })

  test('every approved change is carried out by an activity that names it', () => {
    const { changes } = document as { changes: Record<string, { status: string }> }
    const named = new Set(activities.flatMap((a) => a.from))
    for (const [id, { status }] of Object.entries(changes)) {
      expect(named.has(`/changes/${id}`), id).toBe(status === 'approved')
    }
  })

  test('the plan keeps every link, calendar and resource, counted again from its dates', () => {
    const { network, planned } = result.solved as NonNullable<ProgrammeResult['solved']>
    expect(violations(network, planned.plan.dates)).toEqual([])
    peakUse(network, planned.plan.dates).forEach((use, r) => {
      expect(use, network.resources[r]).toBeLessThanOrEqual(network.capacity[r] as number)
    })
    expect(result.bound?.value).toBeLessThanOrEqual(result.restart as number)
  })

  test('four gangs close the bearing in 55 % of the time of two, and the crane is walked between its two standings', () => {
    const id = 'S30-old-bearing.close.J-MB-OUT'
    const two = programmeOf(patched(document, [{ op: 'remove', path: `/programme/adjustments/${id}` }]))
    const [four, usual] = [result.activities[id], two.activities[id]]
    expect([four?.needs.FIT, usual?.needs.FIT]).toEqual([4, 2])
    expect((four?.work[1] ?? 0) / (usual?.work[1] ?? 1)).toBeCloseTo(0.55, 9)
    const walked = (file: unknown): number => {
      const { plan } = programmeOf(file)
      return (plan['S27-outer-seal.rig']?.start as number) - (plan['S22-material-lock.out']?.finish as number)
    }
    const slow: Operation = { op: 'replace', path: '/programme/setUps/CR1-standing/times/0/time', value: '10 d' }
    expect(walked(document)).toBeLessThan(8 * 86_400)
    expect(walked(patched(document, [slow]))).toBeGreaterThanOrEqual(10 * 86_400)
  })

  test('no duration is missing and no question about the network is left unanswered', () => {
    expect(activities.flatMap((a) => a.unknown ?? [])).toEqual([])
    const asked = result.checks.filter((c) => c.kind === 'programme.network.health' && c.verdict !== 'pass')
    expect(asked.map((c) => [c.id, c.reasons])).toEqual([])
  })
})

const FINISHES = `
  A010 2031-11-05, A020 2031-11-14, A030 2031-11-17, A040 2031-11-29, A050 2031-12-20, A060 2031-12-27,
  B010 2032-01-09, B020 2032-03-03, B030 2032-03-02, B040 2032-01-27, B050 2032-06-15, B060 2033-01-15,
  B070 2032-04-17, B080 2032-02-28, B090 2032-04-14, B100 2032-04-03, B110 2032-04-06, B120 2032-03-16,
  C010 2032-04-01, C020 2032-04-02, C030 2032-04-16, C040 2032-06-08, C050 2032-06-08, C060 2032-06-05,
  C070 2032-06-24, C080 2032-07-11, C090 2032-08-03, C100 2032-08-31, C110 2032-09-09, C120 2032-09-30,
  C130 2032-09-14, C140 2032-05-15, C150 2032-05-20, C160 2032-07-17, C170 2032-07-23, D010 2032-03-24,
  D020 2032-06-22, D030 2032-10-05, D040 2032-10-08, D050 2032-10-13, D060 2032-10-17, E010 2032-10-21,
  E020 2032-10-22, E030 2032-10-27, E040 2032-10-26, E050 2032-10-30, E060 2032-11-04, E070 2032-11-07,
  E080 2032-11-10, E090 2032-11-13, E100 2032-11-18, E110 2032-11-23, E120 2032-11-27, E130 2032-12-01,
  E140 2032-12-03, E150 2032-12-07, F010 2032-12-12, F020 2032-12-17, F030 2032-12-21, F040 2032-12-25,
  F050 2032-12-30, F060 2033-01-06, F070 2033-01-18, F080 2033-01-22, F090 2033-02-02, F100 2033-02-06,
  F110 2033-02-16, F120 2033-02-23, F130 2033-02-27, G010 2032-12-17, G020 2033-01-15, G030 2033-01-25,
  G040 2032-12-09, G050 2032-12-15, G060 2032-12-31, G070 2033-01-13, G080 2032-12-29, G090 2032-11-07,
  H010 2033-03-06, H020 2033-03-10, H030 2033-03-12, H040 2033-03-16, H050 2033-03-20, H060 2033-03-24,
  H070 2033-04-01, H080 2033-04-06, H090 2033-04-13, H100 2033-04-23, H110 2033-04-09, H120 2033-04-20,
  H130 2033-04-08, K010 2033-04-30, K020 2033-05-03, K030 2033-05-04, K040 2033-05-04, K050 2033-05-08,
  K060 2033-05-13, K070 2033-05-22, K080 2033-05-22, L010 2033-05-27, L020 2033-06-22, L030 2033-06-25
`
