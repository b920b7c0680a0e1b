import { GRAVITY } from '../../working/answer.ts'
import { showNumber, type UnitSystem } from '../../working/quantity.ts'
import { exactFigure, exactUnit, lengthScale } from './figures.ts'
import type { SheetSubject } from './subject.ts'

/** Ends of a leg from the hook, for taking its tension again. */
export interface LegPlace {
  name: string
  at: readonly [string, string, string]
}

const PLUMB = 0.01

/** Legs at the piece, not those above a spreader. */
const lowerLegs = ({ outcome, main }: SheetSubject) =>
  outcome.legs.filter((leg) => main.rigging?.nodes[leg.to] === undefined)

/** Places of the legs' ends from the hook as the piece hangs, to a millimetre. */
export function legPlaces(subject: SheetSubject, units: UnitSystem): LegPlace[] {
  const shown = (x: number): string => showNumber(x / lengthScale(units), 3)
  return subject.outcome.legs.flatMap(({ id, ends }) =>
    ends === undefined
      ? []
      : (['lower', 'upper'] as const).map((end, i) => ({
          name: `${id}, ${end} end`,
          at: (ends[i] as (typeof ends)[0]).map(shown) as unknown as LegPlace['at'],
        })),
  )
}

/** The legs' tensions against the load on them, in words that a checker can follow. */
export function legBalance(subject: SheetSubject, units: UnitSystem): string {
  const { outcome, main, stages } = subject
  const { gear } = stages.model.project
  const legs = lowerLegs(subject)
  const spreaders = [...new Set(Object.values(main.rigging?.nodes ?? {}).map((n) => n.gear))]
  const above = spreaders.reduce((sum, id) => sum + (gear[id]?.mass.value ?? 0), 0)
  const load = outcome.hookLoad.value
  const pulls = legs.map(({ tension, angle }) => (tension.value ?? Number.NaN) * Math.cos(angle.value ?? 0))
  const pull = pulls.reduce((sum, p) => sum + p, 0)
  if (load === undefined || Number.isNaN(pull)) return 'Open: the legs do not settle, or a mass is missing.'
  const [mass, force] = [exactUnit('kg', units), exactUnit('N', units)]
  const kilograms = (value: number): string => exactFigure({ value, unit: 'kg' }, units).text
  const newtons = (value: number): string => exactFigure({ value, unit: 'N' }, units).text
  const left =
    spreaders.length === 0
      ? `${kilograms(load)} ${mass}`
      : `(${kilograms(load)} − ${kilograms(above)} spreader) ${mass}`
  return `ΣT·cos β = ${newtons(pull)} ${force}; load on the legs ${left} × ${GRAVITY.value} m/s² = ${newtons((load - above) * GRAVITY.value)} ${force}.${momentWords(subject, pulls, units)}`
}

/** Where all legs hang plumb, their moments about the plumb line through the hook. */
function momentWords(subject: SheetSubject, pulls: readonly number[], units: UnitSystem): string {
  const legs = lowerLegs(subject)
  if (legs.some(({ angle, ends }) => (angle.value ?? 1) > PLUMB || ends === undefined)) return ''
  const about = (axis: 0 | 1): string => {
    const moment = legs.reduce((sum, { ends }, i) => sum + (pulls[i] as number) * (ends?.[0][axis] ?? 0), 0)
    return units === 'SI' ? `${showNumber(moment / 1000, 1)} kN m` : `${showNumber(moment / 1355.8179483, 1)} kip ft`
  }
  return ` About the plumb line: ΣT·x = ${about(0)}, ΣT·y = ${about(1)}.`
}
