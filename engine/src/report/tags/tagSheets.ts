import { box, type Drawing, type Mark, type PaperPoint, text } from '../drawing.ts'
import { wrapText } from '../fontWidth.ts'
import { type Field, roomOf } from '../paper/border.ts'
import { handSheets } from '../paper/handSheets.ts'
import { issuedWords } from '../paper/issued.ts'
import { RULE, SMALL } from '../paper/pen.ts'
import { type HandPaper, upright } from '../paper/size.ts'
import { INVENTED } from '../sheet/cautions.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { qrMarks } from './qr.ts'

/** What tags are asked for with. */
export interface TagOptions extends SheetOptions {
  /** A4 where none is named. */
  paper?: HandPaper
  /** Address of the workbench as it is reached from the site: each symbol then opens its line there. Absent, it holds the tag alone. */
  base?: string | undefined
}

/** One tag, to be cut out: on the line itself, and on the port that it was on. */
export interface Tag {
  service: string
  tag: string
  on: 'line' | 'port'
  facts: readonly string[]
  /** What its symbol says. */
  says: string
}

/** Where a line of the register stands in a workbench. */
export const serviceLink = (base: string, service: string): string =>
  `${base.replace(/[#?].*$/, '').replace(/\/*$/, '/')}#model/services/${service}`

/** Two tags for every service that is parted, in the order in which they come off. */
export function tagsOf({ strip, model: { project } }: SheetStages, base?: string): Tag[] {
  return strip.steps.flatMap(({ step, services }) =>
    services.flatMap((id): Tag[] => {
      const service = project.services[id]
      if (service === undefined) return []
      const { tag = id, kind, medium, size, from, to, isolation } = service
      const facts = [
        [kind, medium, size].filter((f) => f !== undefined).join(', '),
        `${from} to ${to}`,
        [`step ${step}`, isolation && `isolation ${isolation}`].filter(Boolean).join(' · '),
      ]
      const says = base === undefined ? tag : serviceLink(base, id)
      return (['line', 'port'] as const).map((on) => ({ service: id, tag, on, facts, says }))
    }),
  )
}

/** Heights and widths, mm: the symbol is read at arm's length. */
const SYMBOL = 30
const LABEL = 34
const ACROSS = 2
const NAME = 6

/** The tags on sheets to be cut; undefined where nothing is parted. */
export function tagSheets(stages: SheetStages, options: TagOptions = {}): Drawing[] | undefined {
  const tags = tagsOf(stages, options.base)
  if (tags.length === 0) return undefined
  const { paper = 'A4' } = options
  const room = roomOf(upright(paper))
  const width = (room.right - room.left) / ACROSS
  const most = Math.floor((room.bottom - room.top) / LABEL) * ACROSS
  const pages = Array.from({ length: Math.ceil(tags.length / most) }, (_, i) =>
    tags.slice(i * most, (i + 1) * most).flatMap((tag, n) => {
      const at = [room.left + (n % ACROSS) * width, room.top + Math.floor(n / ACROSS) * LABEL] as const
      return [...tagMarks(tag, at, width), ...qrMarks(tag.says, [at[0] + 1, at[1] + 2], SYMBOL)]
    }),
  )
  return handSheets('Tags of services', paper, pages, (page) => fieldsOf(stages, options, tags.length, page))
}

function tagMarks({ tag, on, facts }: Tag, [left, top]: PaperPoint, width: number): Mark[] {
  const x = left + SYMBOL + 3
  const room = width - SYMBOL - 5
  const names = wrapText(tag, { size: NAME, weight: 700, tabular: false }, room).slice(0, 2)
  const rest = [on === 'line' ? 'on the line' : 'on the port', ...facts].flatMap((words) =>
    wrapText(words, { size: SMALL, weight: 400, tabular: false }, room),
  )
  const below = top + 4 + names.length * NAME
  return [
    box({ left, top, right: left + width, bottom: top + LABEL }, { stroke: { ...RULE, dash: [2, 2] } }),
    ...names.map((words, i) => text([x, top + 2 + (i + 1) * NAME], words, { size: NAME, weight: 700 })),
    ...rest.slice(0, 6).map((words, i) => text([x, below + (i + 1) * SMALL * 1.24], words, { size: SMALL })),
  ]
}

function fieldsOf({ model }: SheetStages, options: TagOptions, count: number, page: string): Field[] {
  const { about } = model.project
  const { words, under } = issuedWords(options)
  return [
    { name: 'Tags of services', words: `${count} tags, two of each`, under: about.title, share: 30 },
    {
      name: 'The symbol',
      words: options.base === undefined ? 'holds the tag' : 'opens the line',
      under: options.base ?? 'no address of a workbench was given',
      share: 34,
    },
    { name: 'Revision', words, under, share: 24 },
    { name: 'Sheet', words: page, under: about.invented ? INVENTED : '', share: 18 },
  ]
}
