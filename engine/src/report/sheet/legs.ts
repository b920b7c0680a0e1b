import type { LiftOutcome } from '../../lift/index.ts'
import { given } from '../../working/answer.ts'
import type { UnitSystem } from '../../working/quantity.ts'
import { degreesText, exactFigure, type Figure, figure, OPEN, useText } from './figures.ts'
import type { SheetSubject } from './subject.ts'

/** One leg of the rigging, for the table and the drawing. */
export interface SheetLeg {
  id: string
  /** Id of the sling in stock, and what it is. */
  item: string
  itemName: string
  from: string
  to: string
  length: Figure
  tension: Figure
  worst: Figure
  rated: Figure
  /** Worst tension over rating, from the check of the lift stage. */
  use: number | undefined
  useText: string
  angle: Figure
  angleText: string
  slack: boolean
  /** Level link and the length it adds. */
  link: string
}

/** Legs under the main hook, as the lift stage found them. */
export function legsOf(subject: SheetSubject, units: UnitSystem): SheetLeg[] {
  const { stock } = subject.stages.model.project
  return subject.outcome.legs.map((leg) => {
    const item = stock[leg.item]
    const use = useOfLeg(subject, leg.id)
    return {
      id: leg.id,
      item: leg.item,
      itemName: item?.name ?? item?.kind ?? leg.item,
      from: leg.from ?? 'hook',
      to: leg.to,
      length: figure(item?.length ?? given('m', '', undefined), units),
      tension: exactFigure(leg.tension, units),
      worst: exactFigure(leg.worst, units),
      rated: figure(item?.rated ?? given('kg', '', undefined), units),
      use,
      useText: useText(use),
      angle: figure(leg.angle, units),
      angleText: leg.angle.value === undefined ? OPEN : degreesText(leg.angle.value),
      slack: leg.slack,
      link: leg.link === undefined ? '' : `level link ${leg.link.item} set to ${figure(leg.link.setting, units).text}`,
    }
  })
}

/** A leg under the tail hook of a turn, at its worst pull. */
export interface SheetTailLeg
  extends Pick<
    SheetLeg,
    'id' | 'item' | 'from' | 'to' | 'length' | 'worst' | 'rated' | 'useText' | 'angle' | 'angleText'
  > {
  /** Upper and lower end from the hook, across the turn and up, m. */
  ends?: LiftOutcome['tailLegs'][number]['ends']
}

/** Legs under the tail hook of a turn, as the lift stage found them. */
export function tailLegsOf({ stages, outcome, tail }: SheetSubject, units: UnitSystem): SheetTailLeg[] {
  const { stock } = stages.model.project
  return outcome.tailLegs.map(({ id, item, from = 'hook', to, worst, angle, ends }) => ({
    id,
    item,
    from,
    to,
    length: figure(stock[item]?.length ?? given('m', '', undefined), units),
    worst: exactFigure(worst, units),
    rated: figure(stock[item]?.rated ?? given('kg', '', undefined), units),
    useText: useText(
      outcome.checks.find((c) => c.kind === 'lift.leg.tension' && c.id.endsWith(`${tail?.hookId}/${id}`))?.utilisation,
    ),
    angle: figure(angle, units),
    angleText: angle.value === undefined ? OPEN : degreesText(Math.abs(angle.value)),
    ...(ends === undefined ? {} : { ends }),
  }))
}

/** Use of a leg's sling: the check of a force that names the leg. */
const useOfLeg = ({ outcome }: SheetSubject, leg: string): number | undefined =>
  outcome.checks.find((c) => c.unit === 'N' && c.id.split('/').at(-1) === leg)?.utilisation
