import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { model } from '../model/index.ts'
import type { Check } from '../working/check.ts'
import { freshMemory } from '../working/memory.ts'
import { lidOnTub } from './strip.fixture.ts'
import { strip } from './strip.ts'

type Raw = Readonly<Record<string, unknown>>

function checked(service: Raw, more: Raw = {}): { found: Check; hoses: Check | undefined } {
  const memory = freshMemory()
  const document = lidOnTub({
    services: {
      H1: { kind: 'hose', medium: 'oil', from: 'lid', to: 'tub', timeOff: '10 min', timeOn: '20 min', ...service },
    },
    ...more,
  })
  const read = model({ schemaVersion: 1, about: { title: 'Small' }, ...document }, memory)
  if (read.model === undefined) throw new Error(JSON.stringify(read.problems))
  const { checks } = strip(read.model, mass(read.model, memory), memory)
  const of = (kind: string) => checks.find((c) => c.kind === kind)
  return { found: of('strip.step.services-found') as Check, hoses: of('strip.step.hoses') }
}

const PARTED = { by: 'Fitter', on: '2031-05-01', tag: 'H1' }
const JOINED = { by: 'Fitter', on: '2031-06-01', tag: 'H1', port: 'H1', checkedBy: 'Foreman' }

describe('every service is found again', () => {
  test('with three equal tags and two people it is; its own id stands where it has no tag', () => {
    expect(checked({ parted: PARTED, joined: JOINED }).found.verdict).toBe('pass')
  })

  test.each([
    ['another tag taken off', { parted: { ...PARTED, tag: 'H7' } }, 'the tag taken off reads "H7"'],
    ['another tag put on', { joined: { ...JOINED, tag: 'H7' } }, 'the tag put on reads "H7"'],
    ['another port', { joined: { ...JOINED, port: 'P2' } }, 'the port reads "P2"'],
    ['one person for two', { joined: { ...JOINED, checkedBy: 'Fitter' } }, 'named as who looked'],
    ['joined before it was parted', { joined: { ...JOINED, on: '2031-04-30' } }, 'before it was parted'],
  ])('%s fails, and says which', (_, change, said) => {
    const { found } = checked({ parted: PARTED, joined: JOINED, ...change })
    expect(found.verdict).toBe('fail')
    expect(found.reasons.join()).toContain(said)
  })

  test.each([
    ['nothing recorded', {}, '/services/H1/parted is not given'],
    ['parted alone', { parted: PARTED }, '/services/H1/joined is not given'],
    [
      'nobody looked',
      { parted: PARTED, joined: { ...JOINED, checkedBy: undefined } },
      '/services/H1/joined/checkedBy is not given',
    ],
  ])('%s is open', (_, service, said) => {
    const { found } = checked(JSON.parse(JSON.stringify(service)))
    expect(found.verdict).toBe('open')
    expect(found.reasons).toContain(said)
  })

  test('what led to a scrapped part is not looked for', () => {
    const boxes = lidOnTub().parts as Record<string, Raw>
    expect(checked({}, { parts: { ...boxes, lid: { ...boxes.lid, fate: 'scrapped' } } }).found).toBeUndefined()
  })
})

describe('hoses that go back', () => {
  const settings = { ...(lidOnTub().settings as Raw), hoseYears: 6 }
  const hose = { made: '2027-01-01', rated: '35 MPa', leastBend: '0.2 m', bend: '0.3 m' }
  const verdict = (change: Raw) =>
    checked({ pressure: '30 MPa', isolation: undefined, hose: { ...hose, ...change }, joined: JOINED }, { settings })
      .hoses

  test.each([
    ['in date, rated, and bent widely', {}, 'pass'],
    ['made more than six years before', { made: '2025-05-31' }, 'fail'],
    ['rated below its pressure', { rated: '28 MPa' }, 'fail'],
    ['bent too tightly', { bend: '0.15 m' }, 'fail'],
  ])('%s: %s', (_, change, expected) => {
    expect(verdict(change as Raw)?.verdict).toBe(expected)
  })
})
