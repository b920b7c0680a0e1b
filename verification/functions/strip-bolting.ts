import { arrangementOf, tighteningOrder } from '../../engine/src/strip/bolt-places.ts'
import { gradeOf, threadOf } from '../../engine/src/strip/bolt-sizes.ts'
import { boltLoad, preloadByStrength, stressArea, stressAreaInch } from '../../engine/src/strip/bolting.formulas.ts'
import { type Bolts, type Method, scatterBy } from '../../engine/src/strip/bolting.ts'
import { numberOf, textOf } from '../inputs.ts'
import type { Inputs, Value, VerifiedFunction } from '../types.ts'

/** Bolts: sizes, grades, preloads, scatter, places and order. */
export const bolting: Record<string, VerifiedFunction> = {
  /** Stress area of a thread, and its loads at the strengths of a grade. */
  'strip.bolts.loads': loadsOf,
  /** Preload that steelwork aims at. */
  'strip.bolts.preload-of': (inputs) => {
    const { area, grade } = sizeOf(inputs)
    return { preload: preloadByStrength.value({ As: area, Rm: grade.nominal }) }
  },
  /** Scatter of a method to either side. */
  'strip.bolts.scatter-of': (inputs) => ({
    scatter: scatterBy(textOf(inputs, 'method') as Method, textOf(inputs, 'lubrication') as Bolts['lubrication']),
  }),
  /** Σ y² of a ring of bolts about its weakest axis, turned by an angle. */
  'strip.bolts.second': (inputs) => {
    const [n, r, turn] = [numberOf(inputs, 'bolts'), numberOf(inputs, 'r'), numberOf(inputs, 'turn')]
    const at = Array.from({ length: n }, (_, i): readonly [number, number] => {
      const angle = turn + (2 * Math.PI * i) / n
      return [r * Math.cos(angle), r * Math.sin(angle)]
    })
    return { second: arrangementOf({ kind: 'circle', at }).second }
  },
  /** Strokes of one pass round a ring, and how many bolts are taken more than once. */
  'strip.bolts.strokes': (inputs) => {
    const n = numberOf(inputs, 'bolts')
    const at = Array.from({ length: n }, (_, i): readonly [number, number] => [Math.cos(i), Math.sin(i)])
    const strokes = tighteningOrder({ kind: 'circle', at }, numberOf(inputs, 'tools'))
    return { strokes: strokes.length, left: n - new Set(strokes.flat()).size }
  },
}

function sizeOf(inputs: Inputs) {
  const thread = threadOf(textOf(inputs, 'thread'))
  if (thread === undefined) throw new Error(`no such thread: ${textOf(inputs, 'thread')}`)
  const grade = gradeOf(textOf(inputs, 'grade'), thread.d)
  if (grade === undefined) throw new Error(`no such grade: ${textOf(inputs, 'grade')}`)
  const area = (thread.form === 'inch' ? stressAreaInch : stressArea).value({ d: thread.d, P: thread.pitch })
  return { area, grade }
}

function loadsOf(inputs: Inputs): Record<string, Value> {
  const { area, grade } = sizeOf(inputs)
  return {
    area,
    proof: boltLoad.value({ As: area, S: grade.proof }),
    tensile: boltLoad.value({ As: area, S: grade.tensile }),
  }
}
