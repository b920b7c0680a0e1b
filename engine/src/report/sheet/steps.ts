import { coordinates, type Move } from '../../model/index.ts'
import { norm } from '../../numeric/vector.ts'
import { showQuantity, type UnitSystem } from '../../working/quantity.ts'
import { degreesText, lengthText, lengthUnit } from './figures.ts'
import type { SheetSubject } from './subject.ts'

/** One step on the day, in words; a hold point waits for a signature. */
export interface SheetStep {
  words: string
  hold?: string
}

/** Steps of a lift with its hold points, in the order of the day. */
export function stepsOf(subject: SheetSubject, units: UnitSystem): SheetStep[] {
  const { lift } = subject
  return [
    {
      words: 'Read this sheet with everyone who takes part; radio, signals and the one voice agreed.',
      hold: permitWords(subject, units),
    },
    ...releaseSteps(subject),
    { words: riggingWords(subject), hold: 'rigging inspected, certificates and angles agree with this sheet' },
    ...takeLoad(subject, units),
    ...moveSteps(subject, units),
    ...landing(subject),
    ...(lift.note === undefined ? [] : [{ words: `Note of the plan: ${lift.note}.` }]),
  ]
}

function permitWords({ outcome, lift }: SheetSubject, units: UnitSystem): string {
  const permit = lift.kind === 'turn' ? 'permit to turn' : 'permit to lift'
  return `${permit}; gust at height below ${showQuantity(outcome.allowableWind.value, 'm/s', units)} now and for ${showQuantity(outcome.duration.value, 's', units)}; exclusion closed, people counted`
}

const MOST_NAMED = 6

const named = (ids: readonly string[]): string =>
  ids.length <= MOST_NAMED
    ? ids.join(', ')
    : `${ids.slice(0, MOST_NAMED).join(', ')} and ${ids.length - MOST_NAMED} more`

function releaseSteps({ steps, back }: SheetSubject): SheetStep[] {
  if (back) return []
  const [joints, services] = [steps.flatMap((s) => s.joints), steps.flatMap((s) => s.services)]
  const words = [
    ...(services.length > 0 ? [`${services.length} services parted and capped (${named(services)})`] : []),
    ...(joints.length > 0 ? [`${joints.length} joints released (${named(joints)})`] : []),
  ]
  if (words.length === 0) return []
  return [
    {
      words: `Free the piece: ${words.join('; ')}.`,
      hold: 'isolations proved; every fastener off, counted against the list',
    },
  ]
}

function riggingWords({ main, tail, stages }: SheetSubject): string {
  const { stock, gear } = stages.model.project
  const list = [main, ...(tail === undefined ? [] : [tail])].map(({ hookId, rigging }) => {
    if (rigging === undefined) return `${hookId}: rigging not planned`
    const items = countedItems(rigging).map(([id, n]) => `${n} × ${stock[id]?.name ?? stock[id]?.kind ?? id} ${id}`)
    return `${hookId}: ${[...rigging.gear.map((id) => gear[id]?.name ?? id), ...items].join(', ')}`
  })
  return `Rig as in C. ${list.join('. ')}.`
}

type Rigging = NonNullable<SheetSubject['main']['rigging']>

function countedItems({ legs, others }: Rigging): [string, number][] {
  const counts = new Map<string, number>()
  const add = (id: string, n: number): unknown => counts.set(id, (counts.get(id) ?? 0) + n)
  for (const leg of legs) {
    add(leg.item, 1)
    if (leg.link !== undefined) add(leg.link, 1)
  }
  for (const other of others) add(other.item, other.count)
  return [...counts]
}

function takeLoad(subject: SheetSubject, units: UnitSystem): SheetStep[] {
  const { low, ceiling } = readingOf(subject)
  const shown = (mass: number | undefined): string => showQuantity(mass, 'kg', units)
  return [
    {
      words: `Hook plumb over the centre of gravity; take the load slowly. Stop if the reading passes ${shown(ceiling)}: something still holds.`,
    },
    {
      words: `Clear by ${lengthText(0.1, units)} ${lengthUnit(units)}: watch, look at every sling, pin and weld; read the load cells.`,
      hold:
        subject.lift.kind === 'turn'
          ? 'both shares and line angles agree with this sheet'
          : `reading from ${shown(low)} to ${shown(ceiling)}; hangs within the tilt printed here`,
    },
  ]
}

/**
 * Band of the load reading: the lower mass with its rigging, and the ceiling at break-out, or the planned load where the
 * ceiling is open.
 */
export function readingOf({ outcome, set }: SheetSubject): { low: number | undefined; ceiling: number | undefined } {
  const [load, design, lower] = [outcome.hookLoad.value, set.design.value, set.lower.value]
  const known = load !== undefined && design !== undefined && lower !== undefined
  const ceiling = outcome.checks.find((c) => c.kind === 'lift.hook.break-out')?.demand.value
  return { low: known ? load - design + lower : undefined, ceiling: ceiling ?? outcome.demand.value }
}

const SMALLEST_MOVE = 0.005

function moveSteps({ steps, back, lift, main }: SheetSubject, units: UnitSystem): SheetStep[] {
  const moves = steps.flatMap((s) => s.moves)
  const inOrder = back ? [...moves].reverse() : moves
  return inOrder.flatMap((move) => {
    const words = moveWords(move, back, units)
    if (words === undefined) return []
    const speed = main.hook.speed?.value
    const rise = 'by' in move ? Math.abs(coordinates(move.by)[2]) : 0
    const time =
      speed === undefined || speed === 0 || rise < 1
        ? ''
        : `, ${showQuantity(rise / speed, 's', units)} at the hoist's speed`
    return [
      {
        words: `${words}${time}.`,
        ...('turn' in move && lift.kind === 'turn' ? { hold: 'stop and read both hooks at every stage of E' } : {}),
      },
    ]
  })
}

/** A move in words of the site: forward, back, left, right, up, down; the other way when the piece comes back. */
function moveWords(move: Move, back: boolean, units: UnitSystem): string | undefined {
  const sign = back ? -1 : 1
  if ('turn' in move) {
    const turn = (move.turn.value as number) * sign
    return `Turn ${degreesText(turn)} about site ${move.axis}`
  }
  const by = coordinates(move.by).map((x) => x * sign)
  if (norm([by[0] as number, by[1] as number, by[2] as number]) < SMALLEST_MOVE) return undefined
  const unit = lengthUnit(units)
  const parts = DIRECTIONS.flatMap(([axis, plus, minus]) => {
    const x = by[axis] as number
    return Math.abs(x) < SMALLEST_MOVE ? [] : [`${lengthText(Math.abs(x), units)}\u00a0${unit} ${x > 0 ? plus : minus}`]
  })
  return `Move ${parts.join(', ')}`
}

const DIRECTIONS = [
  [0, 'forward', 'back'],
  [1, 'left', 'right'],
  [2, 'up', 'down'],
] as const

function landing({ lift, stages, piece, back }: SheetSubject): SheetStep[] {
  if (back)
    return [
      {
        words: 'Seat the piece; first pins and bolts in before any slack is given.',
        hold: 'seated, held by its first fasteners; release of the rigging',
      },
    ]
  const id = lift.bay ?? piece.bay
  if (id === undefined) return [{ words: 'Set down.', hold: 'stable; release of the rigging' }]
  const bay = stages.model.project.bays[id]
  return [
    {
      words: `Set down on bay ${id}${bay?.name === undefined ? '' : `, ${bay.name}`}; bearers level, packing as planned.`,
      hold: 'bears on every packing; release of the rigging',
    },
  ]
}
