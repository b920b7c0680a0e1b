import type { Vec3 } from '../../numeric/vector.ts'
import type { Answer } from '../../working/answer.ts'
import { showNumber, type UnitSystem } from '../../working/quantity.ts'
import { lengthText, levelText, OPEN } from './figures.ts'
import type { SheetSubject } from './subject.ts'

/** The way of a lift in time, for the one who watches the clock: times count from the load being taken. */
export interface SheetDay {
  stages: readonly { name: string; by: string; at: string; from: string; takes: string; until: string; back: string }[]
  /** In words; where going on is the shorter way to safety. */
  pointOfNoReturn: string
  holding: readonly { name: string; when: string; how: string }[]
  /** Longest way to safety of each stage and failure. */
  refuges: readonly { stage: string; failure: string; position: string; time: string; holds: string }[]
}

export function dayOf({ outcome }: SheetSubject, units: UnitSystem): SheetDay {
  const { stages, pointOfNoReturn, holdingPositions, refuges } = outcome
  return {
    stages: stages.map((stage) => ({
      name: stage.name,
      by: stage.parts.map((part) => part.label).join(', '),
      at: stage.to === undefined ? OPEN : placeText(stage.to, units),
      from: clock(stage.start),
      takes: clock(stage.time),
      until: clock(stage.end),
      back: clock(stage.back),
    })),
    pointOfNoReturn: returnText(pointOfNoReturn, stages, units),
    holding: holdingPositions.map(({ name, from, to, hangs }) => ({
      name,
      when: from.value === to.value ? clock(from) : `${clock(from)} to ${clock(to)}`,
      how: hangs ? 'hangs: safe from wind alone' : 'set down',
    })),
    refuges: refuges.map(({ stage, failure, position, time, holds }) => ({
      stage: `${stage + 1} ${stages[stage]?.name ?? ''}`,
      failure,
      position,
      time: clock(time),
      holds: holds === undefined ? OPEN : holds ? 'held' : 'NOT held',
    })),
  }
}

function returnText(
  { time, stage, at, stated, window }: SheetSubject['outcome']['pointOfNoReturn'],
  stages: SheetSubject['outcome']['stages'],
  units: UnitSystem,
): string {
  if (time.value === undefined) return 'The point of no return is open.'
  const name = stage === undefined ? '' : `, in stage ${stage + 1} ${stages[stage]?.name ?? ''}`
  const where = at === undefined ? '' : `, hook at ${placeText(at, units)}`
  return `From ${clock(time)} on${name}${where}, going on is the shorter way to safety${stated ? ', as the project states' : ''}; from there the wind has to hold for ${clock(window)}.`
}

const HOUR = 3600

/** Hours and minutes; a time before the load is taken has a minus. */
export function clock({ value }: Pick<Answer<'s'>, 'value'>): string {
  if (value === undefined) return OPEN
  const minutes = Math.round(Math.abs(value) / 60)
  const sign = value < 0 && minutes > 0 ? '\u2212' : ''
  return `${sign}${Math.floor((minutes * 60) / HOUR)}:${String(minutes % 60).padStart(2, '0')}`
}

/** Where the hook is: forward, left, level. */
const placeText = ([x, y, z]: Vec3, units: UnitSystem): string =>
  `${showSigned(x, units)}, ${showSigned(y, units)}, ${levelText(z, units)}`

const showSigned = (value: number, units: UnitSystem): string => {
  const text = lengthText(value, units)
  return Number(text.replace('\u2212', '-')) === 0 ? showNumber(0, 2) : text
}
