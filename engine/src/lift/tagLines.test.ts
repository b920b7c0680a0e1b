import { expect, test } from 'vitest'
import type { Answer, Worked } from '../working/answer.ts'
import { onFloats } from './feet.fixture.ts'
import type { Change } from './fixture.ts'
import { tagLines } from './kinds.ts'
import { outcome } from './small.fixture.ts'
import { slewMoment } from './tagLines.formulas.ts'

const slewing =
  (start?: string, more: Change = () => {}): Change =>
  (d) => {
    onFloats(d)
    d.systems.tower.slewSpeed = '30 deg/min'
    if (start !== undefined) d.systems.tower.slewStart = start
    more(d)
  }

const pullOf = (change?: Change) =>
  outcome('out', change).checks.find(({ kind }) => kind === tagLines.id)?.demand as Worked<'N'>
const momentOf = (change?: Change): Answer => pullOf(change).inputs.T as Answer

// a solid box, m (a² + b²) / 12 about the axis square to a and b: ISO 80000-4 gives the definition, the figure is derived
test.each([
  ['as it lies, about its height', undefined, (20_000 * (3 ** 2 + 2 ** 2)) / 12],
  ['stood on end, about its length', '90 deg', (20_000 * (2 ** 2 + 2 ** 2)) / 12],
])('a block is brought about by its moment of inertia %s', (_, attitude, inertia) => {
  const moment = momentOf(
    slewing('20 s', (d) => {
      if (attitude === undefined) return
      d.steps = {}
      d.order = []
      d.lifts.out.attitude = attitude
    }),
  )
  expect(moment.value).toBeCloseTo((inertia * Math.PI) / 360 / 20, 6)
})

test('it does not matter which way the machine was driven', () => {
  const yawed = slewing('20 s', (d) => {
    d.machine.pose.yaw = '30 deg'
  })
  expect(momentOf(yawed).value).toBeCloseTo(momentOf(slewing('20 s')).value as number, 6)
})

test('a machine that does not slew adds nothing, and asks for no time', () => {
  expect(momentOf().value).toBe(0)
  expect(pullOf().value).toBeGreaterThanOrEqual(0)
})

test('a crane whose time to its slewing speed is not stated leaves the pull open, by name', () => {
  const demand = pullOf(slewing())
  expect(demand.value).toBeUndefined()
  expect(JSON.stringify(demand)).toContain('/systems/tower/slewStart')
})

test('slewing up in half the time doubles the moment', () => {
  const moment = (t: number) => slewMoment.value({ J: 21_667, w: 0.0087, t })
  expect(moment(10)).toBeCloseTo(2 * moment(20), 9)
})
