import { expect, test } from 'vitest'
import type { Model } from '../model/index.ts'
import type { Activities } from './activity.ts'
import { checkIn, heldRestart } from './programme.fixture.ts'
import { punchHolds } from './punchHolds.ts'

const held = (...asked: Parameters<typeof heldRestart>) => {
  const result = heldRestart(...asked)
  return { result, check: result.checks.find(({ kind }) => kind === 'programme.punch.held') }
}

test('an item that blocks the restart holds it by name until it is closed, and moves no date', () => {
  const free = held({ blocks: 'nothing' })
  expect([free.check, free.result.held]).toEqual([undefined, undefined])
  const { check, result } = held()
  expect(check?.verdict).toBe('open')
  expect(result.held).toEqual({ B: ['P1: Gland of motor 3 is loose'] })
  expect(result.plan).toEqual(free.result.plan)
  const closed = held({ closed: { by: 'inspector', on: '2031-11-04' } })
  expect([closed.check?.verdict, closed.result.held]).toEqual(['pass', undefined])
})

test('a restart that began over an open item fails and names it; so does one begun before it was closed', () => {
  const more = { dataDate: '2031-11-07', progress: { A: { finish: '2031-11-05' }, B: { start: '2031-11-06' } } }
  expect(held({}, more).check?.verdict).toBe('fail')
  expect(held({}, more).check?.reasons.join()).toContain('began on 2031-11-06 while P1')
  const late = held({ closed: { by: 'inspector', on: '2031-11-07' } }, more).check
  expect([late?.verdict, late?.reasons.join().includes('closed on 2031-11-07')]).toEqual(['fail', true])
  expect(held({ closed: { by: 'inspector', on: '2031-11-06' } }, more).check?.verdict).toBe('pass')
})

test('an item due after the plan begins what it holds fails with both days, and the plan stays', () => {
  const planned = checkIn(heldRestart({ due: '2031-12-24' }), 'programme.punch.held')
  expect([planned.verdict, planned.reasons.join()]).toEqual(['fail', expect.stringContaining('due on 2031-12-24')])
  expect(heldRestart({ due: '2031-12-24' }).restart).toBe(heldRestart({ blocks: 'nothing' }).restart)
})

const hose = (isolation: string, from: string, to: string) => ({ kind: 'hose', isolation, from, to })
const services = { H1: hose('oil', 'pump', 'motor'), H2: hose('water', 'tank', 'cooler') }
const activity = (id: string, kind = 'typed') => ({ [id]: { id, kind } })
const activities = {
  ...activity('energise.oil', 'energise'),
  ...activity('energise.water', 'energise'),
  ...activity('test.T1', 'test'),
  ...activity('go'),
} as unknown as Activities

function heldActivities(item: object): string[] {
  const punchList = { P1: { what: 'x', parts: [], services: [], tests: [], blocks: 'energising', ...item } }
  const project = { punchList, services, programme: { restart: 'go' } } as unknown as Model['project']
  return Object.keys(punchHolds(project, activities)).sort()
}

test('an item that blocks energising holds the circuits of its services and parts, with the restart; of neither, every circuit', () => {
  expect(heldActivities({ services: ['H1'] })).toEqual(['energise.oil', 'go'])
  expect(heldActivities({ parts: ['cooler'] })).toEqual(['energise.water', 'go'])
  expect(heldActivities({})).toEqual(['energise.oil', 'energise.water', 'go'])
})

test('an item that blocks the restart leaves circuits free and holds the tests that it names', () => {
  expect(heldActivities({ blocks: 'restart', services: ['H1'], tests: ['T1'] })).toEqual(['go', 'test.T1'])
})
