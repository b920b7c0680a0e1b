import type { JackLoad } from '../../../ground/index.ts'
import { pointerOf } from '../../../working/pointer.ts'
import { showQuantity } from '../../../working/quantity.ts'
import { lengthText, lengthUnit, useText } from '../../sheet/figures.ts'
import type { SiteSubject } from '../subject.ts'
import { type FigureTable, number, words } from './figures.ts'

/** A jack as drawn, N and m. */
export interface Jack {
  id: string
  pointer: string
  at: readonly [number, number]
  least: number | undefined
  most: number | undefined
  ahead: number | undefined
  lost: number | undefined
  /** Ahead of the others on top of the most that it carries even. */
  worst: number | undefined
}

export interface JackedShield {
  jacks: readonly Jack[]
  rated: number | undefined
  shell: number | undefined
}

/** Jacks under the shield; undefined where the project has none, or nothing stands on them. */
export function jackedShield({ stages }: SiteSubject): JackedShield | undefined {
  const { jacking } = stages.model.project.cradle ?? {}
  if (jacking === undefined || stages.ground.jacks.length === 0) return undefined
  return {
    jacks: stages.ground.jacks.map(jackOf),
    rated: jacking.rated?.value,
    shell: jacking.shell?.value,
  }
}

function jackOf({ id, at, least, most, ahead, lost }: JackLoad): Jack {
  return {
    id,
    pointer: pointerOf('cradle', 'jacking', 'points', id),
    at: [at[0].value as number, at[1].value as number],
    least: least.value,
    most: most.value,
    ahead: ahead.value,
    lost: lost.value,
    worst: most.value === undefined || ahead.value === undefined ? undefined : most.value + ahead.value,
  }
}

/** Every jack: place, load even and out of step, and its share of what a jack is rated for. */
export function jackTable(subject: SiteSubject): FigureTable | undefined {
  const shield = jackedShield(subject)
  if (shield === undefined) return undefined
  const { units } = subject
  const { jacks, rated } = shield
  const like = Math.max(...jacks.map((j) => j.worst ?? j.most ?? 0))
  const force = (v: number | undefined): string => (v === undefined ? 'open' : showQuantity(v, 'N', units, like))
  const worst = Math.max(...jacks.map((j) => j.worst ?? 0))
  return {
    title: 'Jacks under the shield',
    aside: `the whole of what stands there; places in ${lengthUnit(units)}`,
    columns: [
      words('Jack', 9),
      number('along', 11),
      number('across', 11),
      number('least, even', 17),
      number('most, even', 17),
      number('more when ahead', 17),
      number('less when behind', 17),
      number('of rated', 12),
    ],
    rows: jacks.map((j) => ({
      pointer: j.pointer,
      cells: [
        j.id,
        lengthText(j.at[0], units),
        lengthText(j.at[1], units),
        force(j.least),
        force(j.most),
        force(j.ahead),
        force(j.lost),
        useText(j.worst === undefined || rated === undefined ? undefined : j.worst / rated),
      ],
      strong: j.worst !== undefined && j.worst === worst,
    })),
  }
}

export const jackNotes = (): string[] => [
  'Bars: the load with all at one height, least and most of as found and as returned; the pale end is what it takes when it runs ahead of the others by the synchronous tolerance. Lines: what a jack is rated for, and what the shell bears at one point.',
  'The shield is rigid, each point as stiff as the other; all of the weight on the jacks, nothing sticks to the bed. Packed as it rises, never on jacks alone; nobody under it.',
]
