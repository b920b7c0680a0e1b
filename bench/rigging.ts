import { envelopeOf } from '../engine/src/lift/envelope.ts'
import { type HungLoad, hang } from '../engine/src/lift/hang.ts'
import { atMost, type Line, reported, timeAtMost } from './line.ts'
import { timed } from './timed.ts'

/** Worst case over lengths, centre of gravity and weight of a bridle of so many legs: solves and steps are held to. */
export const riggingLines = (): Line[] => [4, 6, 8].flatMap(cornersOf)

/** At most 256 corners of eight lengths, and as many again for what is tried at the worst of them. */
const MOST_SOLVED = 512
const MOST_STEPS_A_SOLVE = 12

function cornersOf(legs: number): Line[] {
  const load = bridle(legs)
  const tolerances = {
    weight: [0.95 * load.weight, 1.05 * load.weight] as const,
    cog: [0.15, 0.1, 0.2] as const,
    lengths: load.legs.map(() => 0.00125),
    stiffness: [1, 0.75, 1.25],
  }
  const { value, milliseconds } = timed(5, () => envelopeOf(load, tolerances, hang(load)))
  return [
    atMost(`worst case of ${legs} legs: equilibria`, value.solved, '', MOST_SOLVED),
    atMost("  Newton's steps in each", value.steps / value.solved, '', MOST_STEPS_A_SOLVE),
    reported('  largest force that does not close, of the weight', value.residual / load.weight, ''),
    timeAtMost('  time', milliseconds, 50),
  ]
}

/** Points on an ellipse, as the published four of a numerical case are. */
function bridle(n: number): HungLoad {
  const legs = Array.from({ length: n }, (_, i) => {
    const angle = (2 * Math.PI * (i + 0.5)) / n
    return { to: [3 * Math.cos(angle), 2.2 * Math.sin(angle), 0] as const, length: 8, stiffness: 2.1e8 }
  })
  return { legs, weight: 1.5e6, cog: [0.1, -0.05, -1.2] }
}
