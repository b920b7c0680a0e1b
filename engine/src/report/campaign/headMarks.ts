import type { UnitSystem } from '../../working/quantity.ts'
import { dateText, dayText } from '../civil.ts'
import { type Mark, text } from '../drawing.ts'
import { wrapText } from '../fontWidth.ts'
import { INVENTED } from '../sheet/cautions.ts'
import type { Campaign } from './campaign.ts'
import type { Simulated } from './dateMarks.ts'
import type { Field } from './field.ts'
import { glassWords, tallyWords } from './glass.ts'
import { level, stroke } from './pens.ts'
import { dateWords, hookText, KIND_WORDS } from './words.ts'
import { barMarks } from './workMarks.ts'

/** The next lift, and the next that turns or comes near the rating: what the day is about. */
export function nextWords({ lifts, today, origin }: Campaign, units: UnitSystem): string {
  const ahead = lifts.flatMap((d) => d.runs).filter((r) => today === undefined || r.start >= today)
  const [next] = ahead
  if (next === undefined) return 'Every piece is back.'
  const close = ahead.find((r) => r.isClose && r !== next)
  const say = (r: typeof next): string =>
    `${r.short} ${KIND_WORDS[r.kind]}, ${hookText(r, units)}, ${dateWords(origin, r.start)}`
  return `${today === undefined ? 'First' : 'Next'}: ${say(next)}${close === undefined ? '' : `; then ${say(close)}`}.`
}

export function restartWords(
  { restart, restartUnlimited, agreed, isActual, origin }: Campaign,
  simulated: Simulated | undefined,
): string {
  if (restart === undefined) return 'No restart is planned.'
  const early =
    restartUnlimited === undefined || Math.abs(restart - restartUnlimited) < 86_400
      ? ', and nothing queues'
      : `, with queues; ${dayText(origin, restartUnlimited, true)} if nothing queued`
  const chance =
    simulated === undefined
      ? ''
      : `; even chance ${dayText(origin, simulated.p50, true)}, four in five ${dayText(origin, simulated.p80, true)}`
  return `Restart: ${dayText(origin, restart, true)} as ${isActual ? 'forecast' : 'planned'}${early}${slipWords(restart, agreed?.restart)}${chance}.`
}

function slipWords(restart: number, agreed: number | undefined): string {
  const days = agreed === undefined ? 0 : Math.round((restart - agreed) / 86_400)
  return days === 0 ? '' : `; ${Math.abs(days)} d ${days > 0 ? 'later' : 'sooner'} than agreed`
}

/** Title, project, today; what comes next and when the drive goes on. */
export function headMarks(
  campaign: Campaign,
  field: Field,
  units: UnitSystem,
  simulated: Simulated | undefined,
  revision: string | undefined,
): Mark[] {
  const { layout } = field
  const { sheet } = layout
  if (!sheet.head) return []
  const { margin, type, k } = sheet
  const width = layout.field.left - margin - 4 * k
  const small = { size: type.small, weight: 400, tabular: false } as const
  const lines = wrapText(`${campaign.title}${revision === undefined ? '' : `; revision ${revision}`}`, small, width)
  const invented = campaign.model.project.about.invented ? [INVENTED] : []
  const left = [
    text([margin, margin + type.title * 0.74], 'Campaign diagram', { size: type.title, weight: 700 }),
    ...[...lines.slice(0, 3), ...invented].map((words, i) =>
      text([margin, margin + type.title + (i + 0.9) * type.small * 1.25], words, { ...small, ink: 'quiet' }),
    ),
  ]
  const x = layout.field.left
  const fitted = (words: string): string[] =>
    wrapText(words, { size: type.sentence, weight: 400, tabular: false }, layout.field.right - x)
  const sentences = [...fitted(nextWords(campaign, units)), ...fitted(restartWords(campaign, simulated))]
  const rows = sentences.map((words, i) =>
    text([x, margin + type.sentence * 0.8 + i * type.sentence * 1.3], words, { size: type.sentence }),
  )
  const y = margin + type.sentence * 0.8 + sentences.length * type.sentence * 1.3 - 0.6 * k
  const caution = 'A forecast from stated assumptions; never a reason to shorten a hold point.'
  return [...left, ...rows, text([x, y], caution, { ...small, ink: 'quiet' })]
}

/** When a sheet was issued, and of what content. */
export interface Issued {
  /** Year-month-day. */
  date: string
  contentHash: string
}

/** Two lines that remind, and the tally of what is not under the glass. */
export function footMarks(
  campaign: Campaign,
  field: Field,
  units: UnitSystem,
  dropped: readonly string[],
  { paper, issued }: { paper: string; issued?: Issued },
): Mark[] {
  const { layout } = field
  const { sheet } = layout
  if (!sheet.head) return []
  const { type, k, margin } = sheet
  const small = { size: type.small, weight: 400, tabular: false } as const
  const right = sheet.width - margin
  const y = layout.foot + type.small * 0.6
  const tally = tallyWords(campaign, field, units)
  const nothing = dropped.length === 0 ? '' : `No room for ${dropped.length} labels: ${dropped.join('; ')}`
  const lanes = `lanes cross ${campaign.crossings} times`
  const invented = campaign.model.project.about.invented ? ', invented data' : ''
  const stamp =
    issued === undefined ? '' : `; issued ${dateText(issued.date)}, content ${issued.contentHash.slice(0, 12)}`
  const end = text([right, y + 2 * type.small * 1.2], `${paper} landscape, ${lanes}${invented}${stamp}`, {
    ...small,
    ink: 'quiet',
    anchor: 'end',
  })
  const agreed = campaign.agreed === undefined ? '' : ` Dotted: as agreed, ${campaign.agreed.name}.`
  const queues = campaign.uses.some((u) => u.waits.length > 0) ? ' Grey steps under a line of use: so many wait.' : ''
  const key = `Solid track: done. Hollow, or dashed when under 10 t: to come. Thickness: under 10, under 100, over 100 t. Second line: returns heavier. ◇ turned. ○ weighed.${agreed}${queues}`
  const printable = key.replace('◇', 'Square on its tip:').replace('○', 'Ring:')
  const cut = (words: string, most: number): string => wrapText(words, small, most)[0] as string
  const room = right - margin
  const third = [nothing].filter((w) => w !== '')
  return [
    level(layout.foot - 1.6 * k, margin, right, stroke(0.2 * k, 'edge')),
    text(
      [margin, y],
      cut(
        layout.glass === undefined
          ? 'Lift days hour by hour stand on the larger sheets.'
          : `${glassWords(campaign)} ${tally}`,
        room,
      ),
      { ...small, ink: 'quiet' },
    ),
    ...workKey(margin, y + type.small * 1.2, printable, room, field),
    ...third.map((words) =>
      text([margin, y + 2 * type.small * 1.2], cutWith(words, small, room - end.width - 4 * k), {
        ...small,
        ink: 'quiet',
      }),
    ),
    end,
  ]
}

const cutWith = (words: string, face: { size: number; weight: 400; tabular: boolean }, room: number): string => {
  const [first, ...rest] = wrapText(words, face, room - face.size)
  return rest.length === 0 ? (first as string) : `${first}…`
}

/** The marks explained in one line, with a sample bar for each kind of work. */
function workKey(x: number, y: number, words: string, room: number, { layout }: Field): Mark[] {
  const { type, k } = layout.sheet
  const small = { size: type.small, weight: 400, tabular: false } as const
  const kinds = [
    ['weld', 'weld'],
    ['machine', 'machine'],
    ['test', 'test, measure'],
    ['fit', 'fit, unbolt'],
  ] as const
  let at = x
  const bars = kinds.flatMap(([kind, name]): Mark[] => {
    const bar = { left: at, right: at + 7 * k, top: y - 2 * k, bottom: y + 0.2 * k }
    const label = text([bar.right + 1 * k, y], name, { ...small, ink: 'quiet' })
    at = bar.right + label.width + 4 * k
    return [...barMarks(bar, kind, k), label]
  })
  const rest = cutWith(words, small, room - (at - x))
  return [...bars, text([at, y], rest, { ...small, ink: 'quiet' })]
}
