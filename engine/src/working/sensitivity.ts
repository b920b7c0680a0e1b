import type { Answer } from './answer.ts'
import { showNumber, shownScale, type UnitSystem } from './quantity.ts'
import type { SiUnit } from './unit.ts'

/** What one more unit of an input does to a result. */
export interface Sensitivity {
  /** Name of the input under the answer. */
  key: string
  symbol: string
  /** One more of what: "1 t", "0.1 m", "0.01". */
  per: string
  /** The result's move, signed, with its unit where it has one. */
  effect: string
  /** Relative move of the result for one per cent more of the input: what the list is ordered by. */
  share: number
}

interface Input {
  key: string
  symbol: string
  unit: SiUnit
  si: number | undefined
}

/**
 * Slopes in the units a reader counts in, what moves the result most first; inputs that do not move it are left out. Good for
 * small moves: the slope is that at the present values.
 *
 * @param slopes ∂result/∂input, SI per SI, by the inputs' keys
 */
export function sensitivityOf(
  result: Pick<Answer, 'value' | 'unit'>,
  inputs: readonly Input[],
  slopes: Readonly<Record<string, number>>,
  system: UnitSystem,
): Sensitivity[] {
  const { value, unit } = result
  if (value === undefined) return []
  const moves = inputs.flatMap(({ key, symbol, unit: own, si }): Sensitivity[] => {
    const slope = slopes[key] ?? 0
    if (slope === 0 || si === undefined || !Number.isFinite(slope)) return []
    const step = stepOf(si, own, system)
    return [
      {
        key,
        symbol,
        per: step.text,
        effect: signedText(slope * step.si, value, unit, system),
        share: Math.abs((slope * si) / (value || 1)),
      },
    ]
  })
  return moves.sort((a, b) => b.share - a.share)
}

/** One of the unit that the value is shown in; a tenth, a hundredth … where the value is smaller than that. */
function stepOf(value: number, unit: SiUnit, system: UnitSystem): { si: number; text: string } {
  const { factor, label } = shownScale(value, unit, system)
  const shown = Math.abs(value) / factor
  const step = unit === '1' ? 0.01 : shown >= 1 || shown === 0 ? 1 : 10 ** Math.floor(Math.log10(shown))
  const number = Number(step.toPrecision(1))
  return { si: step * factor, text: label === '' ? String(number) : `${number}\u00a0${label}` }
}

const DIGITS = 2
const MOST_DECIMALS = 9

/** A move with its sign and two digits that count, in the unit of the value that moves. */
function signedText(move: number, value: number, unit: SiUnit, system: UnitSystem): string {
  const { factor, label } = shownScale(value, unit, system)
  const shown = move / factor
  const decimals = Math.min(MOST_DECIMALS, Math.max(0, DIGITS - 1 - Math.floor(Math.log10(Math.abs(shown) || 1))))
  const number = showNumber(Math.abs(shown), decimals)
  return `${move < 0 ? '\u2212' : '+'}${number}${label === '' ? '' : `\u00a0${label}`}`
}
