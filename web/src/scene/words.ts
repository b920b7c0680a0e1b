import type { Scene } from './scene.ts'
import { type Moment, momentAt } from './stand.ts'

/** Where along the order one is, in words that change only from step to step. */
export function whereWords(scene: Scene, along: number): string {
  const moment = momentAt(scene, along)
  const n = scene.steps.length
  if (n === 0) return 'no order yet'
  if (moment.step === undefined) return 'as found'
  if (moment.homeward && moment.out <= 0) return 'all back'
  if (!moment.homeward && moment.out >= n) return `after all ${n} steps`
  const step = scene.steps[moment.step]
  const name = step?.name ?? ''
  const part = `step ${moment.step + 1} of ${n}`
  if (moment.share <= 0) return `back in place: ${name}, ${part}`
  if (moment.share >= 1) return `after ${part}: ${name}`
  return moment.homeward ? `back, ${part}: ${name}` : `${part}: ${name}`
}

/** Where a piece is in a moment, in words. */
export function pieceWords(scene: Scene, piece: string, moment: Moment): string {
  const index = scene.steps.findLastIndex((s, k) => s.piece === piece && k < moment.out)
  const step = scene.steps[index]
  if (step === undefined) return 'where it was found'
  if (index === moment.step && moment.share > 0 && moment.share < 1) return 'on its way'
  if (step.stays) return 'put aside'
  return step.passage.bay === undefined ? 'hanging or carried off' : `on bay ${step.passage.bay}`
}
