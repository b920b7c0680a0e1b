import type { UnitSystem } from '../../working/quantity.ts'
import { dayText } from '../civil.ts'
import { JOINT_WORDS } from './bayWork.ts'
import type { Campaign } from './campaign.ts'
import type { PlacedComb } from './combMarks.ts'
import { sinkingPlaces } from './digMarks.ts'
import type { Field } from './field.ts'
import type { Spot, Wish } from './labelBook.ts'
import type { Row } from './rows.ts'
import { shortened } from './supplyMarks.ts'
import type { Track } from './trackOf.ts'
import { hookText, massText, moreOf } from './words.ts'
import type { PlacedWork } from './workMarks.ts'

/** Every label of the field, the weightiest first. */
export function wishesOf(
  campaign: Campaign,
  field: Field,
  works: readonly PlacedWork[],
  combs: readonly PlacedComb[],
  units: UnitSystem,
): Wish[] {
  const { rows } = field.rows
  return [
    ...rows.flatMap((row) => outWish(row, campaign, field)),
    ...rows.flatMap((row) => backWish(row, campaign, field, units)),
    ...campaign.tracks.flatMap((track) => heavyWishes(track, campaign, field, units)),
    ...combs.map((comb) => combWish(comb, field)),
    ...works.flatMap((work) => workWish(work, field)),
    ...sinkingWishes(campaign, field),
  ]
}

const ends = (row: Row): [Track, Track] => [row.tracks[0] as Track, row.tracks.at(-1) as Track]

/** "12 × Motor out 27 Oct to 11 Nov", left of the first that rises. */
function outWish(row: Row, { origin }: Campaign, field: Field): Wish[] {
  const { axis, layout } = field
  const { k, type } = layout.sheet
  const [first, last] = ends(row)
  if (!axis.shows(first.out)) return []
  const days =
    first === last ? dayText(origin, first.out) : `${dayText(origin, first.out)} to ${dayText(origin, last.out)}`
  const name = row.tracks.length === 1 ? first.short : `${row.tracks.length} × ${row.name}`
  const x = axis.xAt(first.lifting) - 1.3 * k
  const y = field.onBay(first)
  const size = type.small
  const above = y - (row.hasWork ? 2.4 : 1.2) * k
  const inside = axis.xAt(last.out) + 1.3 * k
  const spots: Spot[] = [
    { x, y: y + 0.35 * size, anchor: 'end' },
    { x, y: y - 0.9 * k, anchor: 'end' },
    { x: axis.xAt(first.out) + 1.3 * k, y: above, anchor: 'start' },
    { x: inside, y: above, anchor: 'start' },
    { x: inside, y: y + size * 1.1 + (row.tracks.length - 1) * 0.6 * k, anchor: 'start' },
    { x, y: y + size, anchor: 'end' },
  ]
  return [
    {
      forms: [[`${name} out ${days}`], [`${name} ${dayText(origin, first.out)}`], [name]],
      spots,
      size,
      weight: 700,
      of: first.pointer,
    },
  ]
}

/** "back 9 Mar, +4.3 t", right of the one that descends last. */
function backWish(row: Row, { origin }: Campaign, field: Field, units: UnitSystem): Wish[] {
  const { axis, layout } = field
  const { k, type } = layout.sheet
  const returning = row.tracks
    .filter((t) => t.back !== undefined)
    .sort((a, b) => (a.back as number) - (b.back as number))
  const [first, last] = [returning[0], returning.at(-1)]
  if (first === undefined || last === undefined || !axis.shows(last.back as number)) return []
  const more = returning.length === 1 ? moreOf(last) : 0
  const change = more === 0 ? '' : ` ${more > 0 ? '+' : '−'}${massText(Math.abs(more), units)}`
  const days =
    first === last
      ? dayText(origin, last.back as number)
      : `${dayText(origin, first.back as number)} to ${dayText(origin, last.back as number)}`
  const count = returning.length === 1 ? '' : `${returning.length} × `
  const mass = returning.length === 1 ? `, ${massText(last.massBack, units)}` : ''
  const x = axis.xAt(last.home ?? (last.back as number)) + (more > 0 ? 2 : 1.3) * k
  const y = field.onBay(returning.length === 1 ? last : (row.tracks[0] as Track))
  const size = type.small
  const spots: Spot[] = [
    { x, y: y + 0.35 * size, anchor: 'start' },
    { x, y: y - 0.9 * k, anchor: 'start' },
    { x, y: y + size * 1.1, anchor: 'start' },
    ...[2.4, 1.2].map((up): Spot => ({ x: axis.xAt(first.back as number) - 1.3 * k, y: y - up * k, anchor: 'end' })),
    { x: axis.xAt(first.back as number) - 1.3 * k, y: y + size * 1.1, anchor: 'end' },
  ]
  const own = {
    forms: [[`${count}back ${days}${mass}${change}`], [`${count}back ${days}${change}`], [days]],
    spots,
    size,
    of: last.pointer,
    ink: more > 0 ? ('fail' as const) : ('ink' as const),
  }
  return [own]
}

const HEAVY = 100_000

/** Heavy lifts through the shaft say what hangs from the hook, beside their way, in the open shaft. */
function heavyWishes(track: Track, { origin, lifts }: Campaign, field: Field, units: UnitSystem): Wish[] {
  const { axis, layout, machine } = field
  const { k, type } = layout.sheet
  if ((track.mass ?? 0) < HEAVY || track.off !== undefined) return []
  const runs = lifts.flatMap((d) => d.runs)
  const step = (machine.top - layout.collar - 8 * k) / 4
  const wish = (lift: string | undefined, at: number | undefined, word: string, side: 1 | -1): Wish[] => {
    const run = runs.find((r) => r.lift === lift)
    if (run === undefined || at === undefined || !axis.shows(at)) return []
    const x = axis.xAt(at)
    const spots = [2.6, 7, 12, 18, 25, 34].flatMap((away) =>
      [0, 1, 2, 3].flatMap((i): Spot[] => {
        const y = layout.collar + 7 * k + i * step
        return [
          { x: x + side * away * k, y, anchor: side > 0 ? 'start' : 'end' },
          { x: x - side * away * k, y, anchor: side > 0 ? 'end' : 'start' },
        ]
      }),
    )
    const day = `${word} ${dayText(origin, at)}`
    return [
      {
        forms: [[`${track.short}, ${hookText(run, units)}`, day], [hookText(run, units), day], [day]],
        spots,
        size: type.label,
        weight: 700,
        from: [x, 0],
        of: track.pointer,
      },
    ]
  }
  return [...wish(track.liftOut, track.out, 'out', 1), ...wish(track.liftBack, track.back, 'down', -1)]
}

function combWish({ label, box }: PlacedComb, { layout }: Field): Wish {
  const { k, type } = layout.sheet
  const middle = (box.left + box.right) / 2
  const y = box.top - 0.8 * k
  return {
    forms: [[label]],
    spots: [
      { x: middle, y, anchor: 'middle' },
      { x: box.left, y, anchor: 'start' },
      { x: box.right, y, anchor: 'end' },
      { x: box.right + 1 * k, y: box.bottom, anchor: 'start' },
      { x: box.left - 1 * k, y: box.bottom, anchor: 'end' },
    ],
    size: type.small,
    ink: label.includes('tests') ? 'ink' : 'air',
  }
}

const LEAST_BAR = 2.2
const JOINTS: ReadonlySet<string> = new Set(Object.values(JOINT_WORDS))

/** What a bar is, below it in one of two rows, or above or beside it. */
function workWish({ work, bar }: PlacedWork, { layout }: Field): Wish[] {
  const { k, type, fine } = layout.sheet
  const width = bar.right - bar.left
  if (width < LEAST_BAR * k || (!fine && width < 6 * k)) return []
  const size = type.small
  const x = (bar.left + bar.right) / 2
  const spots: Spot[] = [1.06, 2.1].flatMap((row): Spot[] => [
    { x, y: bar.bottom + row * size - 0.2 * k, anchor: 'middle' },
    { x: bar.left, y: bar.bottom + row * size - 0.2 * k, anchor: 'start' },
  ])
  const beside: Spot[] = [
    { x: bar.right + 0.8 * k, y: (bar.top + bar.bottom) / 2 + size * 0.35, anchor: 'start' },
    { x, y: bar.top - 0.8 * k, anchor: 'middle' },
  ]
  const short = shortened(work.name.replace(/^[^:]{3,14}:\s*/, ''), 34)
  const tiny = (work.name.split(/[,:(]/)[work.name.includes(':') ? 1 : 0] ?? work.name).trim()
  const forms = [...new Set([short, shortened(tiny, 22), shortened(tiny, 12)])].map((f) => [f])
  return [
    {
      forms,
      spots: [...spots, ...beside],
      size,
      ink: 'quiet',
      of: work.pointer,
      isMinor: work.activities.length > 1 || JOINTS.has(work.name),
    },
  ]
}

/** The making of the shaft, beside its marks. */
function sinkingWishes(campaign: Campaign, field: Field): Wish[] {
  const { axis, layout, yOf, machine } = field
  const { k, type } = layout.sheet
  const { sinking, origin, model } = campaign
  const { shaft } = model.project
  if (shaft === undefined) return []
  const slabTop = shaft.slabTop.value as number
  const slabFoot = slabTop - (shaft.slabThickness.value as number)
  const digs = sinking.dig
  return sinkingPlaces(campaign).flatMap((span): Wish[] => {
    if (!axis.shows(span.start)) return []
    const days = `${dayText(origin, span.start)} to ${dayText(origin, span.finish)}`
    const [left, right] = [axis.xAt(span.start), axis.xAt(span.finish)]
    const size = type.small
    if (span === sinking.piles)
      return [
        {
          forms: [[shortened(span.name, 40), days], [shortened(span.name, 24)]],
          spots: [
            { x: left, y: layout.field.bottom - size * 1.5, anchor: 'end' },
            { x: right + 2 * k, y: layout.field.bottom - size * 1.5, anchor: 'start' },
          ],
          size,
          ink: 'quiet',
        },
      ]
    const dig = digs.find((d) => d === span)
    if (dig !== undefined && dig !== digs[0]) return []
    if (dig !== undefined) {
      const last = digs.at(-1) as typeof dig
      const y = yOf((dig.from + last.to) / 2)
      const spots: Spot[] = [-1, 0, 1, 2].map((i) => ({
        x: axis.xAt(last.finish) + 1.5 * k,
        y: y + i * 6 * k,
        anchor: 'start',
      }))
      const words = [
        `shaft sunk in ${digs.length} stages`,
        `${dayText(origin, dig.start)} to ${dayText(origin, last.finish)}`,
      ]
      return [
        {
          forms: [words, [words[0] as string]],
          spots: [{ x: axis.xAt(dig.finish) + 3 * k, y: layout.collar + 7 * k, anchor: 'start' }, ...spots],
          size,
          weight: 700,
        },
      ]
    }
    if (span === sinking.slab)
      return [
        {
          forms: [[`base slab, top −${(-slabTop).toFixed(2)} m`], ['base slab']],
          spots: [{ x: right + 2 * k, y: (yOf(slabTop) + yOf(slabFoot)) / 2 + size * 0.35, anchor: 'start' }],
          size,
          ink: 'quiet',
        },
      ]
    if (span === sinking.drive)
      return [
        {
          forms: [[shortened(span.name, 30), days], ['drive in']],
          spots: [
            { x: left - 1 * k, y: machine.top + size * 2, anchor: 'end' },
            { x: left, y: machine.bottom + size * 1.1, anchor: 'start' },
          ],
          size,
          ink: 'quiet',
        },
      ]
    if (span === sinking.fill || span === sinking.breakOut) {
      const y = span === sinking.fill ? yOf(shaft.fill?.top.value ?? slabTop) - 1.2 * k : machine.bottom + size * 1.3
      const word = span === sinking.fill ? 'filled round the machine' : 'break out'
      return [
        {
          forms: [[word, days], [word]],
          spots: [
            { x: right + 0.5 * k, y, anchor: 'end' },
            { x: left, y, anchor: 'start' },
            { x: axis.right - k, y, anchor: 'end' },
          ],
          size,
          ink: 'quiet',
        },
      ]
    }
    return []
  })
}
