import { showNumber, type UnitSystem } from '../../working/quantity.ts'
import { box, type Dimension, type PaperPoint, text } from '../drawing.ts'
import { lengthScale, lengthUnit } from '../sheet/figures.ts'
import { FINE, SMALL } from './pen.ts'
import { lengthOnPaper, type Placing } from './scale.ts'

const STEPS = [1, 2, 5]
const BOXES = 5
const HIGH = 1.4

/** A bar of black and white boxes, a round number of metres or feet long, at most so many millimetres of paper. */
export function scaleBar(placing: Placing, [x, y]: PaperPoint, most: number, units: UnitSystem): Dimension {
  const unit = lengthScale(units)
  const count = roundBelow((most * placing.scale) / 1000 / unit)
  const value = count * unit
  const length = lengthOnPaper(placing, value)
  const shown = (share: number): string => showNumber(count * share, count >= BOXES ? 0 : 1)
  return {
    kind: 'dimension',
    name: `scale bar: ${shown(1)} ${lengthUnit(units)}`,
    value,
    scale: placing.scale,
    from: [x, y],
    to: [x + length, y],
    marks: [
      ...Array.from({ length: BOXES }, (_, k) =>
        box(
          { left: x + (k * length) / BOXES, right: x + ((k + 1) * length) / BOXES, top: y - HIGH, bottom: y },
          { fill: k % 2 === 0 ? 'ink' : 'paper', stroke: FINE },
        ),
      ),
      text([x, y - HIGH - 0.7], '0', { size: SMALL, anchor: 'middle' }),
      text([x + length / BOXES, y - HIGH - 0.7], shown(1 / BOXES), { size: SMALL, anchor: 'middle' }),
      text([x + length, y - HIGH - 0.7], `${shown(1)} ${lengthUnit(units)}`, {
        size: SMALL,
        anchor: 'middle',
      }),
    ],
  }
}

/** The largest of 1, 2, 5 × 10ⁿ not above. */
function roundBelow(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most))
  const step = STEPS.filter((s) => s * power <= most * (1 + 1e-9)).at(-1) ?? 1
  return step * power
}
