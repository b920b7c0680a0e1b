import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { planOf } from '../improve.ts'
import { latestPlan, listBy, serialPlan } from '../serial.ts'
import { geneticOf } from './genetic.ts'
import { earliestOn, gridOf, latestOn } from './grid.ts'
import { type Instance, networkOfInstance } from './instance.ts'
import { readInstance } from './psplib.ts'
import { scheduleFaults } from './rcpsp.ts'

const instances = ['j301_4', 'j3014_3', 'j3029_8'].map((name): Instance => {
  const text = readFileSync(new URL(`./library/${name}.sm`, import.meta.url), 'utf8')
  return readInstance(text).instance as Instance
})
/** All jobs one after the other. */
const inTurn = ({ durations }: Instance): number[] => {
  let at = 0
  return durations.map((d) => {
    at += d
    return at - d
  })
}

describe('schedules on a grid of whole steps', () => {
  test('are those of the serial scheme on the network, as early and as late as it goes', () => {
    const priorities = fc.array(fc.nat(1000), { minLength: 32, maxLength: 32 })
    fc.assert(
      fc.property(fc.constantFrom(...instances), priorities, (instance, priority) => {
        const [network, grid] = [networkOfInstance(instance), gridOf(instance)]
        const list = listBy(network, priority)
        const early = new Int32Array(list.length)
        const plan = planOf(network, serialPlan(network, list))
        expect(earliestOn(grid, list, early)).toBe(plan.end)
        expect(Array.from(early)).toEqual(Array.from(plan.dates.start))
        const late = new Int32Array(list.length)
        latestOn(grid, list.slice().reverse(), plan.end, late)
        const theirs = latestPlan(network, list.slice().reverse(), plan.end, plan.end)
        expect(Array.from(late)).toEqual(Array.from(theirs.start))
      }),
      { numRuns: 200, seed: 6 },
    )
  })
})

describe('a genetic search on an instance', () => {
  test('never lengthens, keeps every schedule one that can be carried out, and comes again from the same seed', () => {
    for (const instance of instances) {
      const [one, same] = [geneticOf(instance, inTurn(instance), 5), geneticOf(instance, inTurn(instance), 5)]
      let before = Number.POSITIVE_INFINITY
      for (let k = 0; k < 300; k++) {
        one.step()
        same.step()
        const { end, starts } = one.best()
        expect(end).toBeLessThanOrEqual(before)
        before = end
        if (k % 50 === 0) expect(scheduleFaults(instance, starts)).toEqual([])
      }
      expect(Math.max(...one.best().starts)).toBe(one.best().end)
      expect(same.best()).toEqual(one.best())
    }
  })

  // optima: R. Kolisch, A. Sprecher, EJOR 96 (1996) 205-216, and the lists of best known values; library/optima.csv
  test('comes to the optimum of easy instances, and no lower', () => {
    const ends = instances.slice(0, 2).map((instance) => {
      const search = geneticOf(instance, inTurn(instance), 1)
      while (search.schedules() < 4000) search.step()
      return search.best().end
    })
    expect(ends).toEqual(OPTIMA)
  })

  test('takes over a shorter schedule found elsewhere', () => {
    const instance = instances[2] as Instance
    const good = geneticOf(instance, inTurn(instance), 1)
    while (good.schedules() < 2000) good.step()
    const other = geneticOf(instance, inTurn(instance), 2)
    other.tell(good.best().starts)
    expect(other.best().end).toBeLessThanOrEqual(good.best().end)
  })
})

/** Of j301_4 and j3014_3, as library/optima.csv has them. */
const OPTIMA = [62, 58]
