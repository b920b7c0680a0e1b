import type { BoltRecord, Inspection, Model, Weld } from '../../model/index.ts'
import { valueText } from '../dossier/limitWords.ts'

/** Something that a day put on record of an opened part, a weld or the bolts of a joint. */
export interface Recorded {
  /** Id of the record, and what it is of. */
  of: string
  words: string
  by: string
}

type Project = Pick<Model['project'], 'inspections' | 'welds' | 'boltRecords' | 'liftLog'>

/** Parts opened, measured and decided on, welds laid and examined, bolts tightened and looked at again, steps of lifts done on a day. */
export function recordedOn({ inspections, welds, boltRecords, liftLog }: Project, day: string): Recorded[] {
  const told = (of: string, lines: readonly Line[]): Recorded[] => lines.map(([words, by]) => ({ of, words, by }))
  return [
    ...Object.entries(inspections).flatMap(([id, inspection]) =>
      told(`${id}, ${inspection.what}`, partLines(inspection, day)),
    ),
    ...Object.entries(welds).flatMap(([id, weld]) => told(`${id}, ${weld.what}`, weldLines(weld, day))),
    ...Object.entries(boltRecords).flatMap(([id, record]) =>
      told(`${id}, bolts of ${record.joint}`, boltLines(record, day)),
    ),
    ...Object.values(liftLog).flatMap(({ lift, step, what, by, on }) =>
      isOn(on, day) ? told(`lift ${lift}, step ${step}`, [[what, by]]) : [],
    ),
  ]
}

type Line = readonly [words: string, by: string]

function partLines({ opened, measures, decided }: Inspection, day: string): Line[] {
  return [
    ...(opened?.on === day ? [['opened', opened.by] as const] : []),
    ...measureLines(measures, day),
    ...(decided?.on === day
      ? [[`decided: ${decided.as}${decided.reason === undefined ? '' : `, ${decided.reason}`}`, decided.by] as const]
      : []),
  ]
}

const measureLines = (measures: Inspection['measures'], day: string): Line[] =>
  Object.values(measures).flatMap(({ what, unit = '', readings }) =>
    Object.values(readings).flatMap(({ of, value, code, by, on }) =>
      on === day
        ? [
            [
              `${what}${of === undefined ? '' : `, ${of}`}: ${valueText(code ?? value?.value)}\u00a0${unit}`.trimEnd(),
              by,
            ] as const,
          ]
        : [],
    ),
  )

const isOn = (moment: string | undefined, day: string): boolean => moment?.slice(0, 10) === day

function weldLines({ finished, welders, tests, measures }: Weld, day: string): Line[] {
  const marks = Object.values(welders).map(({ mark }) => mark)
  return [
    ...(isOn(finished, day)
      ? [['last pass laid', marks.length === 0 ? 'not recorded' : marks.join(', ')] as const]
      : []),
    ...Object.values(tests).flatMap(({ method, on, by = 'not recorded', result = 'no result yet', indications }) =>
      isOn(on, day)
        ? [[`examined, ${method}: ${result}${indications === undefined ? '' : `, ${indications}`}`, by] as const]
        : [],
    ),
    ...measureLines(measures, day),
  ]
}

const boltLines = ({ bolts, by, on, rechecked }: BoltRecord, day: string): Line[] => [
  ...(on === day ? [[`${bolts} bolts tightened`, by] as const] : []),
  ...(rechecked?.on === day ? [['looked at again after they have settled', rechecked.by] as const] : []),
]
