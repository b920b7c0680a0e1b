import { type WaterStage, waterStages } from '../../../ground/index.ts'
import type { Shaft } from '../../../model/index.ts'
import type { Check } from '../../../working/check.ts'
import { pointerOf } from '../../../working/pointer.ts'
import { showQuantity } from '../../../working/quantity.ts'
import { lengthUnit, levelText, useText } from '../../sheet/figures.ts'
import { worseCheck } from '../sectionTables.ts'
import type { SiteSubject } from '../subject.ts'
import { type FigureTable, number, words } from './figures.ts'

/** The shaft at one stage: dug so far, or filled so far over its slab. */
export interface ShaftStage {
  pointer: string
  title: string
  /** Level of the ground, or of the fill, inside the wall, site z. */
  level: number
  filled: boolean
  running: number
  /** What presses from below; undefined where no confined water lies under the stage. */
  water: WaterStage | undefined
  /** Of the checks that judge this stage, the one used most. */
  governing: Check | undefined
}

/** Stages of the excavation in the order of the project, then the stops of wells over the fill. */
export function shaftStages({ stages }: SiteSubject): ShaftStage[] {
  const { shaft, ground } = stages.model.project
  if (shaft === undefined) return []
  const water = ground === undefined ? [] : waterStages({ shaft, ground })
  const stageAt = (pointer: string, level: number, running: number, filled: boolean) => ({
    pointer,
    level,
    running,
    filled,
    water: water.find((w) => w.pointer === pointer),
    governing: governingAt(stages.ground.checks, shaft, pointer, filled ? undefined : level),
  })
  return [
    ...shaft.stages.map(({ to, running }, i) => ({
      ...stageAt(pointerOf('shaft', 'stages', i), to.value as number, running, false),
      title: 'dug to',
    })),
    ...(shaft.fill?.stops ?? []).map(({ top, running }, i) => ({
      ...stageAt(pointerOf('shaft', 'fill', 'stops', i), top.value as number, running, true),
      title: 'filled to',
    })),
  ]
}

/** At the deepest excavation the checks of the base count too, with the wells on as they are there. */
const OF_BASE = /^ground\.base\.(heave|gradient)$/

function governingAt(
  checks: readonly Check[],
  shaft: Shaft,
  pointer: string,
  dugTo: number | undefined,
): Check | undefined {
  const deepest = dugTo === shaft.excavation.value
  const own = checks.filter((c) => c.subject.pointer === pointer || (deepest && OF_BASE.test(c.kind)))
  return own.reduce<Check | undefined>((a, b) => (a === undefined ? b : worseCheck(a, b)), undefined)
}

/** Every stage: wells, head, what presses up and down, and the check that governs. */
export function stageTable(subject: SiteSubject): FigureTable | undefined {
  const all = shaftStages(subject)
  if (all.length === 0) return undefined
  const { units } = subject
  const pressure = (value: number | undefined): string =>
    value === undefined ? 'open' : showQuantity(value, 'Pa', units, 400_000)
  return {
    title: 'Stages of the shaft',
    aside: `levels in ${lengthUnit(units)}; pressures without factors`,
    columns: [
      words('Stage', 24),
      number('wells', 9),
      number('head', 12),
      number('water up', 16),
      number('weight down', 16),
      words('governs', 30),
      number('use', 10),
      words('', 9),
    ],
    rows: all.map((s) => ({
      pointer: s.pointer,
      cells: [
        `${s.title} ${levelText(s.level, units)}`,
        `${s.running}`,
        s.water?.head.value === undefined ? '–' : levelText(s.water.head.value, units),
        s.water === undefined ? '–' : pressure(s.water.pressure.value),
        s.water === undefined ? '–' : pressure(s.water.weight.value),
        s.governing === undefined ? '–' : governingWords(s.governing),
        s.governing === undefined ? '' : useText(s.governing.utilisation),
        s.governing?.verdict ?? '',
      ],
      strong: s.governing?.verdict === 'fail',
    })),
  }
}

/** What governs, short: the title of a stage repeats the stage. */
export const governingWords = ({ title }: Check): string => title.split(':')[0] as string

export const stageNotes = (subject: SiteSubject): string[] => {
  const enclosed = shaftStages(subject).some((s) => s.water !== undefined && s.water.pressure.value === undefined)
  return [
    'Each section to one scale; inside the wall what is left of the ground, or the fill; dashed the head of the confined water while so many wells run. Short dashes at the left are the heads of the other waters, which the wall holds out. The arrows stand where the confined water presses: up the water, down what lies over it, per area and without factors.',
    'The head follows the wells in proportion, each drawing alike, as the pumping test scales it.',
    'Wells are signs: where they stand is not in the model. Stages of the wall itself (props, prestress) are the designer’s.',
    ...(enclosed ? ['A pressure is open while nobody says how water that the wall encloses is let out (letOut).'] : []),
  ]
}
