import { derive } from '@shieldwright/engine'
import type { Check } from '@shieldwright/engine/working/check.ts'
import { beforeAll, expect, test } from 'vitest'
import { demoDocument } from '../../../engine/src/demo.fixture.ts'
import { followsIn, stageReading } from './follows.ts'

type Stages = NonNullable<ReturnType<typeof derive>['stages']>
let stages: Stages
beforeAll(() => {
  const derived = derive(demoDocument()).stages
  if (derived === undefined) throw new Error('the demo is not derived')
  stages = derived
})

const followed = (start: string) => {
  const check = stages.checks.find((c) => c.id.startsWith(start)) as Check
  return followsIn(stages)(check)
}

test('a finding on a lift stops that lift, on the day that the plan has it', () => {
  const { stops } = followed('lift.hook.use/crown-out')
  expect(stops?.lift).toBe('crown-out')
  const start = stages.programme.plan[stops?.activity ?? '']?.start ?? Number.NaN
  expect(stops?.at).toBe(Date.parse(stages.programme.origin ?? '') + start * 1000)
})

test('a late delivery stops what cannot be put back without it', () => {
  expect(followed('programme.delivery.in-time/SUP-01').stops?.activity).toBe('S30-old-bearing.back')
})

test('a finding on the way back stops the lift back, not the lift out', () => {
  expect(followed('strip.step.return/S04-crown').stops?.activity).toBe('S04-crown.back')
})

test('water under the base stops the excavation that names it as its concern', () => {
  expect(followed('ground.base.uplift/W3').stops?.activity).toBe('C100')
})

test('a finding reaches the risk of the date only where the restart waits for what it stops', () => {
  for (const check of stages.checks.filter((c) => c.verdict !== 'pass')) {
    const { reaches, stops } = followsIn(stages)(check)
    if (stops === undefined) expect(reaches).toBe(check.stage)
    else expect(reaches === 'risk').toBe(stages.programme.plan[stops.activity]?.planCritical)
  }
})

test('the day that the project stands at decides what is still to come', () => {
  const past = derive({ ...demoDocument(), about: { title: 'Recovery', date: '2040-01-01' } }).stages as Stages
  const failing = past.checks.filter((c) => c.stage === 'lift' && c.verdict === 'fail')
  expect(failing.length).toBeGreaterThan(0)
  expect(failing.map((c) => followsIn(past)(c).stops)).toEqual(failing.map(() => undefined))
})

test('shapes are read by the model, masses by mass', () => {
  expect(stageReading('/parts/HUB/solids/0/radius')).toBe('model')
  expect(stageReading('/parts/HUB/mass/value')).toBe('mass')
  expect(stageReading('/programme/deliveries/SUP-01')).toBe('programme')
})
