import type { CradleCase } from '../../../ground/index.ts'
import type { Check } from '../../../working/check.ts'
import { showNumber, showQuantity } from '../../../working/quantity.ts'
import type { SiteSubject } from '../subject.ts'
import { type FigureTable, number, words } from './figures.ts'

/** The cradle under what stands on it, as its picture and its table show it. */
export interface LoadedCradle {
  /** Before each step that finds something else on it than the last did. */
  standing: readonly (CradleCase & { step: string })[]
  /** The one that loads a metre of it most. */
  heaviest: CradleCase | undefined
  splitting: Check | undefined
}

/** What pushes the cradle apart, and what turns the shield on it: without and with the machine in the ground. */
export const CRADLE_KINDS = /^ground\.(cradle\.(contact|roll|splitting)|drive-in\.(held|roll)|restart\.|rings\.)/
/** Of those the ones that are drawn as bars. */
export const CRADLE_BARS = /^ground\.(cradle\.(roll|splitting)|drive-in\.(held|roll)|restart\.roll|rings\.chance)$/

/** The cradle step by step; undefined while nothing stands on one. */
export function loadedCradle({ stages }: SiteSubject): LoadedCradle | undefined {
  const standing = stages.ground.steps.flatMap(({ step, cradle }, i, all) =>
    cradle === undefined || cradle.parts.length === all[i - 1]?.cradle?.parts.length ? [] : [{ ...cradle, step }],
  )
  const splitting = stages.ground.checks.find((c) => c.kind === 'ground.cradle.splitting')
  if (stages.model.project.cradle === undefined || splitting === undefined) return undefined
  return {
    standing,
    heaviest: standing.reduce<LoadedCradle['heaviest']>(
      (a, b) => (a === undefined || (b.along.value ?? Infinity) > (a.along.value ?? Infinity) ? b : a),
      undefined,
    ),
    splitting,
  }
}

/** The cradle where there is also a shaft to draw it in. */
export const drawnCradle = (subject: SiteSubject): LoadedCradle | undefined =>
  subject.stages.model.project.shaft === undefined ? undefined : loadedCradle(subject)

/** Before each step that takes something off it: the weight on the cradle, its heaviest metre, pressure, friction needed. */
export function cradleTable(subject: SiteSubject): FigureTable | undefined {
  const cradle = loadedCradle(subject)
  if (cradle === undefined || cradle.standing.length === 0) return undefined
  const { units } = subject
  const { standing, heaviest } = cradle
  const like = (of: (c: CradleCase) => number | undefined): number => Math.max(0, ...standing.map((c) => of(c) ?? 0))
  const [W, w, p] = [like((c) => c.weight.value), like((c) => c.along.value), like((c) => c.pressure.value)]
  const shown = (value: number | undefined, unit: 'N' | 'N/m' | 'Pa', most: number): string =>
    value === undefined ? 'open' : showQuantity(value, unit, units, most)
  return {
    title: 'What stands on the cradle',
    aside: 'before each step that takes something off; in bold the heaviest metre; no load factor',
    columns: [
      words('before step', 26),
      number('weight', 20),
      number('heaviest metre', 22),
      number('pressure', 18),
      number('friction against roll', 20),
    ],
    rows: standing.map((c) => ({
      pointer: `/steps/${c.step}`,
      cells: [
        c.step,
        shown(c.weight.value, 'N', W),
        shown(c.along.value, 'N/m', w),
        shown(c.pressure.value, 'Pa', p),
        c.friction.value === undefined ? 'open' : showNumber(c.friction.value, 4),
      ],
      strong: c.id === heaviest?.id,
    })),
  }
}

export const cradleNotes = (): string[] => [
  'The shell rests as on two strips at the ends of the contact arc, smooth: each presses square to the shell and pushes its side of the cradle out. A bound, for a fitted bed pushes its sides apart less. Bars across the invert hold the sides together once somebody has designed them with their anchorage.',
  'Bars under the section: each check to its limit, the upright line; the worst of each kind.',
]
