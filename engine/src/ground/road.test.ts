import { describe, expect, test } from 'vitest'
import type { Operation } from '../working/patch.ts'
import { checkOf } from './ground.fixture.ts'

const replace = (path: string, value: unknown): Operation => ({ op: 'replace', path, value })
const road = (...line: [string, string][]) => replace('/utilities/road/line', line)
const onWall = (...patch: Operation[]) => checkOf('ground.haul.wall', patch)
const pressed = (...patch: Operation[]) => onWall(...patch).demand.value as number

describe('a loaded trailer along its road', () => {
  test('presses most where the road comes nearest to the shaft, and that place is named', () => {
    // past the shaft 26 m off: nearest at x = 0
    expect(onWall().title).toContain('at x 0.0 m, y -26.0 m')
  })

  test('is added to what stands there at the step of its piece', () => {
    const step = checkOf('ground.wall.surcharge').demand.value as number
    expect(pressed()).toBeGreaterThan(step)
    const far = pressed(road(['400 m', '400 m'], ['500 m', '400 m']))
    expect(far - step).toBeLessThan(0.001 * step)
  })

  test('presses more on a road nearer to the shaft, alike on either side of it', () => {
    const past = (y: string) => pressed(road(['-40 m', y], ['40 m', y]))
    expect(past('-14 m')).toBeGreaterThan(past('-20 m'))
    expect(past('-20 m')).toBeGreaterThan(past('-26 m'))
    expect(past('20 m')).toBeCloseTo(past('-20 m'), 3)
  })

  test('a road that is not drawn is not looked at, one that is has its line loads', () => {
    expect(() => onWall({ op: 'remove', path: '/utilities/road/line' })).toThrow()
    const [line, whole] = ['line', 'vehicle'].map((kind) => checkOf(`ground.haul.${kind}`).demand.value as number)
    expect(line).toBeCloseTo((whole as number) / 4, 6)
  })
})
