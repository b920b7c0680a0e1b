import { describe, expect, test } from 'vitest'
import type { Operation, Patch } from '../working/patch.ts'
import { groundOf } from './ground.fixture.ts'

const put = (path: string, value: unknown): Operation => ({ op: 'add', path, value })
const K: Patch = [
  put('/ground/layers/clay/permeability', '1e-9 m/s'),
  put('/ground/layers/deep/permeability', '1e-4 m/s'),
]

const flow = (title: RegExp, patch: Patch = []) => {
  const found = groundOf([...K, ...patch]).otherForms.find((f) => title.test(f.title))
  if (found === undefined) throw new Error(`no form ${title}`)
  return found.answer.value
}

describe('what the wells draw', () => {
  // 14 m of sand under the clay, its head drawn down 12 m by wells round a wall of 7.4 m radius
  const REACH = 3000 * 12 * 0.01

  test('confined, by Thiem over the reach of Sichardt', () => {
    expect(flow(/Sichardt/)).toBeCloseTo(REACH, 9)
    expect(flow(/Thiem/)).toBeCloseTo((2 * Math.PI * 1e-4 * 14 * 12) / Math.log(REACH / 7.4), 12)
  })

  test('drawn below the top of the sand it is no longer confined: Dupuit, and less than Thiem would say', () => {
    const low = put('/ground/water/lower/drawnDown', '-30 m')
    const reach = 3000 * 22 * 0.01
    const dupuit = flow(/Dupuit/, [low]) as number
    expect(dupuit).toBeCloseTo((Math.PI * 1e-4 * (32 ** 2 - 10 ** 2)) / Math.log(reach / 7.4), 12)
    expect(() => flow(/Thiem/, [low])).toThrow('no form')
  })

  test('more is drawn the deeper the head is held', () => {
    const held = ['-12 m', '-16 m', '-20 m', '-24 m'].map((z) =>
      flow(/Thiem/, [put('/ground/water/lower/drawnDown', z)]),
    )
    expect(held).toEqual([...held].sort((a, b) => (a as number) - (b as number)))
  })
})

describe('what comes up into the shaft, wells off', () => {
  test('through 6.5 m of sound clay under 11.5 m of head, by Darcy; the floor stands under 0.1 m of water after its volume', () => {
    const area = Math.PI * 6 ** 2
    const Q = 1e-9 * (11.5 / 6.5) * area
    expect(flow(/Darcy/)).toBeCloseTo(Q, 15)
    expect(flow(/0\.1 m deep/)).toBeCloseTo((0.1 * area) / Q, 0)
  })

  test('it goes with the permeability: ten times that, ten times the flow', () => {
    const loose = [put('/ground/layers/clay/permeability', '1e-8 m/s')]
    for (const title of [/Darcy/, /Forchheimer/])
      expect((flow(title, loose) as number) / (flow(title) as number)).toBeCloseTo(10, 9)
  })

  test('a permeability that nobody gave leaves the flow unknown, and no confined water below the base asks for none', () => {
    const open = groundOf().otherForms.filter(({ title }) => /Thiem|Darcy|Forchheimer/.test(title))
    expect(open.map(({ answer }) => answer.value)).toEqual([undefined, undefined, undefined])
    const dry = groundOf([{ op: 'remove', path: '/ground/water/lower' }]).otherForms
    expect(dry.filter(({ of }) => of === 'ground.wells.number')).toEqual([])
  })
})
