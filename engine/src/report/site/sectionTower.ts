import type { System } from '../../model/index.ts'
import type { Check } from '../../working/check.ts'
import { pointerOf } from '../../working/pointer.ts'
import { showQuantity } from '../../working/quantity.ts'
import { box, line, type Mark, type PaperBox, standFor } from '../drawing.ts'
import type { Label } from '../paper/labels.ts'
import { AXIS, EDGE, FINE, HIDDEN, SMALL } from '../paper/pen.ts'
import { onPaper, type Placing } from '../paper/scale.ts'
import { levelText } from '../sheet/figures.ts'
import { planOf } from './planFrame.ts'
import { legsAt } from './planMachines.ts'
import type { SiteSubject } from './subject.ts'

const HALF_LEG = 0.9
const HEADER = 3
const PILES_NAMED = 600

/** Tower on rails, by id. */
const towersOf = ({ stages }: SiteSubject): [string, System][] =>
  Object.entries(stages.model.project.systems).filter(([, s]) => s.rails !== undefined)

/** Where the legs of a tower stand across a section: on its rails along the drive, at the hook across it. */
function feetOf(subject: SiteSubject, id: string, system: System, across: 'x' | 'y'): number[] {
  if (across === 'x') return planOf(system.rails ?? []).slice(0, 2)
  const own = legsAt(subject).filter((l) => l.id.startsWith(`${id}/`) && l.when.includes('lifting'))
  return [...new Set(own.map((l) => -l.at[1]))].sort((a, b) => a - b)
}

/** Legs and header as signs, the highest hook to scale, piles to their toe. */
export function towerMarks(subject: SiteSubject, across: 'x' | 'y', placing: Placing, window: PaperBox): Mark[] {
  return towersOf(subject).flatMap(([id, system]) => {
    const feet = feetOf(subject, id, system, across)
    const head = headOf(system)
    if (feet.length === 0 || head === undefined) return []
    const [, top] = onPaper(placing, [0, head])
    const [, ground] = onPaper(placing, [0, subject.stages.model.project.ground?.surface.value ?? 0])
    const xs = feet.map((u) => onPaper(placing, [u, 0])[0])
    return [
      standFor(pointerOf('systems', id), `${id}, ${system.name}`, [
        ...xs.flatMap((x) => [
          box({ left: x - HALF_LEG, right: x + HALF_LEG, top, bottom: ground }, { fill: 'paper', stroke: FINE }),
          ...(across === 'x' ? pileMarks(system, x, ground, placing, window) : []),
        ]),
        box(
          { left: Math.min(...xs) - 2, right: Math.max(...xs) + 2, top: top - HEADER, bottom: top },
          { fill: 'pale', stroke: EDGE },
        ),
        ...hookLine(system, placing, xs),
      ]),
    ]
  })
}

const headOf = ({ hooks }: System): number | undefined => {
  const heads = Object.values(hooks).flatMap((h) => h.head?.value ?? h.highest?.value ?? [])
  return heads.length === 0 ? undefined : Math.max(...heads)
}

const highestOf = ({ hooks }: System): number | undefined => {
  const all = Object.values(hooks).flatMap((h) => h.highest?.value ?? [])
  return all.length === 0 ? undefined : Math.max(...all)
}

function hookLine(system: System, placing: Placing, xs: readonly number[]): Mark[] {
  const highest = highestOf(system)
  if (highest === undefined) return []
  const [, y] = onPaper(placing, [0, highest])
  return [
    line(
      [
        [Math.min(...xs), y],
        [Math.max(...xs), y],
      ],
      AXIS,
    ),
  ]
}

function pileMarks({ foundation }: System, x: number, ground: number, placing: Placing, window: PaperBox): Mark[] {
  const toe = foundation?.toe?.value
  if (toe === undefined) return []
  const bottom = Math.min(window.bottom, onPaper(placing, [0, toe])[1])
  return [box({ left: x - HALF_LEG, right: x + HALF_LEG, top: ground, bottom }, { stroke: HIDDEN })]
}

/** Whether a storm pushes it along what the section shows: across the drive a tower runs, along it the flanges hold. */
function stormLabel(
  subject: SiteSubject,
  [id, system]: [string, System],
  across: 'x' | 'y',
  placing: Placing,
): Label[] {
  const { stages, units } = subject
  const way = across === 'x' ? 'across' : 'along'
  const check = stages.ground.checks.find((c) => c.id === `ground.tower.sliding/${id}/${way}`)
  const [head, feet] = [headOf(system), feetOf(subject, id, system, across)]
  if (check === undefined || head === undefined || feet.length === 0) return []
  const force = ({ value }: Check['demand']): string => (value === undefined ? 'open' : showQuantity(value, 'N', units))
  return [
    {
      lines: [`storm ${way} its runway`, `${force(check.demand)} of ${force(check.capacity)}`, check.id],
      // between the legs along the drive; they stand too near each other across it
      at: onPaper(placing, [
        across === 'x' ? (Math.min(...feet) + Math.max(...feet)) / 2 : Math.min(...feet),
        head / 2,
      ]),
      towards: across === 'x' ? 90 : 180,
      from: across === 'x' ? 0.6 : 1.5,
      size: SMALL,
      ink: check.verdict === 'fail' ? 'fail' : 'quiet',
      backed: true,
    },
  ]
}

/** Names of the tower, its highest hook and its piles. */
export function towerLabels(subject: SiteSubject, across: 'x' | 'y', placing: Placing): Label[] {
  const { units } = subject
  const named = towersOf(subject).flatMap(([id, system]): Label[] => {
    const feet = feetOf(subject, id, system, across)
    const [head, highest] = [headOf(system), highestOf(system)]
    const toe = system.foundation?.toe?.value
    if (feet.length === 0 || head === undefined) return []
    const middle = (Math.min(...feet) + Math.max(...feet)) / 2
    const last = Math.max(...feet)
    return [
      {
        lines: [`${id} ${system.name}`],
        at: onPaper(placing, [middle, head]),
        towards: 90,
        from: HEADER + 1,
        size: SMALL,
      },
      ...(highest === undefined
        ? []
        : [
            {
              lines: [`highest hook ${levelText(highest, units)}`],
              at: onPaper(placing, [middle, highest]),
              towards: -90,
              from: 0.6,
              size: SMALL,
              backed: true,
            },
          ]),
      ...(toe === undefined || across === 'y' || placing.scale > PILES_NAMED
        ? []
        : [
            {
              lines: [`piles to ${levelText(toe, units)}`],
              at: onPaper(placing, [last, toe]),
              towards: -90,
              from: 0.6,
              size: SMALL,
              ink: 'quiet' as const,
              backed: true,
            },
          ]),
    ]
  })
  return [...named, ...towersOf(subject).flatMap((tower) => stormLabel(subject, tower, across, placing))]
}
