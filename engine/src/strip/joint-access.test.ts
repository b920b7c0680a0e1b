import { describe, expect, test } from 'vitest'
import type { Check } from '../working/check.ts'
import { bolted, boxAt, by, halfway, lidOnTub, stripOf, underHood } from './strip.fixture.ts'

const of = (kind: string, document: unknown, step = 'S1'): Check =>
  stripOf(document).checks.find((c) => c.kind === kind && c.subject.id === step) as Check

describe('the tool over a fastener', () => {
  test('is stopped by the hood over one head, and the head is named', () => {
    expect(of('strip.step.tool', underHood(0.8)).reasons).toEqual(['the tool at head 1 of "J1" strikes "hood"'])
    expect(of('strip.step.tool', underHood(0.49)).verdict).toBe('pass')
  })

  test('fits once the hood has gone a step before', () => {
    const document = {
      ...underHood(0.8),
      pieces: { lid: { name: 'Lid', parts: ['lid'] }, hood: { name: 'Hood', parts: ['hood'] } },
      steps: { S0: { piece: 'hood', moves: [by(0, 0, 30)] }, S1: { piece: 'lid', moves: [by(0, 0, 30)] } },
      order: ['S0', 'S1'],
    }
    expect(of('strip.step.tool', document).verdict).toBe('pass')
  })

  test('is looked at over every bolt of a circle: a post beside it stops three of twelve', () => {
    const circle = { centre: ['0 m', '0 m', '1 m'], diameter: '0.8 m' }
    const document = (y: number) =>
      lidOnTub({
        parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), post: boxAt([0.6, y, 1.5], [0.3, 0.5, 0.9]) },
        joints: {
          J1: bolted('lid', 'tub', {
            bolts: { thread: 'M36', grade: '10.9', count: 12, timeOff: '6 min', timeOn: '9 min' },
            fasteners: { off: '+z', circle },
            tool: { length: '0.4 m', swing: '0.12 m' },
          }),
          J2: bolted('tub', 'post', { throughBracket: true }),
        },
        steps: { S1: { piece: 'lid', moves: [by(-5, 0, 0), by(0, 0, 30)] } },
      })
    expect(of('strip.step.tool', document(0)).demand.value).toBe(3)
    expect(of('strip.step.tool', document(3)).verdict).toBe('pass')
  })

  test('is open where the file does not say where the heads are, naming what is missing', () => {
    const { verdict, reasons } = of('strip.step.tool', lidOnTub())
    expect(verdict).toBe('open')
    expect(reasons).toContain('/joints/J1/fasteners is not given')
    expect(reasons).toContain('/joints/J1/tool/length is not given')
  })
})

describe('a joint half released', () => {
  test('leaves the bolts what the hook does not carry: 7.85 t, half on the hook, is 38.5 kN', () => {
    const check = of('strip.step.load-path', halfway(0.5))
    expect(check.demand.value).toBeCloseTo(7850 * 9.80665 * 0.5, 6)
    expect(check.capacity.value).toBe(40_000)
    expect(check.verdict).toBe('near')
  })

  test('is open without what one bolt may hold: that is for the licensed engineer', () => {
    const document = lidOnTub({ joints: { J1: bolted('lid', 'tub', { halfway: { left: 4, hook: 0.5 } }) } })
    const check = of('strip.step.load-path', document)
    expect(check).toMatchObject({ verdict: 'open', decidedBy: 'licensed structural engineer' })
    expect(check.reasons).toContain('/joints/J1/halfway/resistance is not given')
  })
})

test('tools set up and changed count both ways, and are open without the time for one', () => {
  const joints = { J1: bolted('lid', 'tub', { toolChanges: 3 }) }
  const settings = { overlapTolerance: '2 mm', contactGap: '5 mm', supportMargin: '0.2 m' }
  const { jointTimes } = stripOf(lidOnTub({ joints, settings: { ...settings, toolChange: '20 min' } }))
  expect(jointTimes.J1).toEqual({ off: 3600 + 3600, on: 5400 + 3600 })
  expect(stripOf(lidOnTub({ joints })).jointWork.J1?.off.value).toBeUndefined()
})

test('what is stored and what runs out is said before anything is parted', () => {
  const document = lidOnTub({
    isolations: { I1: { what: 'Oil', kind: 'hydraulic', where: 'unit', storedEnergy: 'accumulator, 20 L' } },
    services: {
      H1: {
        kind: 'hose',
        medium: 'oil',
        from: 'lid',
        to: 'tub',
        pressure: '25 MPa',
        isolation: 'I1',
        drained: '12 L',
        timeOff: '10 min',
        timeOn: '20 min',
      },
    },
  })
  expect(of('strip.step.services', document).assumptions).toEqual([
    'services parted: 1, under 1 isolations (I1)',
    'stored energy let go first, I1: accumulator, 20 L',
    'drained and caught first: 12 L (H1 12 L)',
  ])
  expect(stripOf(document).steps[0]?.drained).toEqual([{ service: 'H1', volume: 0.012 }])
})
