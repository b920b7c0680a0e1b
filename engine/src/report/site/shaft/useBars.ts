import type { Check } from '../../../working/check.ts'
import { box, line, type Mark, type PaperBox, standFor, text } from '../../drawing.ts'
import { cutInside, textWidth } from '../../fontWidth.ts'
import { ATTENTION, EDGE, FINE, SMALL } from '../../paper/pen.ts'
import { useText } from '../../sheet/figures.ts'
import { checkFigure, worseCheck } from '../sectionTables.ts'
import type { SiteSubject } from '../subject.ts'

const HEAD = 6
const ROW = 11
const BAR = 1.8
/** The limit lies at this part of the width: what is over it has room beyond. */
const LIMIT = 0.8
const FACE = { size: SMALL, weight: 400, tabular: false } as const

/** Of each kind, and of each case of it that is asked for apart, the one used most. */
export function worstOf(checks: readonly Check[], kinds: RegExp): Check[] {
  const worst = new Map<string, Check>()
  for (const c of checks.filter(({ kind }) => kinds.test(kind)))
    worst.set(c.kind, worseCheck(worst.get(c.kind) ?? c, c))
  return [...worst.values()]
}

/** Height that so many checks take, mm; nothing for none. */
export const useBarsHeight = (checks: readonly Check[]): number =>
  checks.length === 0 ? 0 : HEAD + ROW * checks.length

/** Checks as bars to their limit: what is and what may be in figures, the check's id under them. */
export function useBars(subject: SiteSubject, title: string, checks: readonly Check[], room: PaperBox): Mark[] {
  if (checks.length === 0) return []
  const limit = room.left + LIMIT * (room.right - room.left)
  const top = room.top + HEAD
  return [
    text([room.left, room.top + 2.4], title, { size: SMALL + 0.3, weight: 700 }),
    ...checks.flatMap((c, i) => useBar(subject, c, { ...room, top: top + i * ROW }, limit)),
  ]
}

function useBar({ units }: SiteSubject, c: Check, { left, right, top }: PaperBox, limit: number): Mark[] {
  const { utilisation: use, verdict } = c
  const quantity = (value: number | undefined): string => checkFigure(value, c.unit, units)
  const figures = `${quantity(c.demand.value)} of ${quantity(c.capacity.value)}, ${use === undefined ? verdict : useText(use)}`
  const failing = verdict === 'fail'
  const far = use === undefined ? left : Math.min(right, left + use * (limit - left))
  const name = cutInside(c.title, FACE, right - left - textWidth(figures, { ...FACE, weight: 700, tabular: true }) - 4)
  return [
    standFor(c.subject.pointer, `${c.title}: ${figures}, ${verdict}`, [
      box(
        { left, right: far, top: top + 6, bottom: top + 6 + BAR },
        { fill: 'pale', stroke: failing ? ATTENTION : FINE },
      ),
    ]),
    text([left, top + 2], name, { size: SMALL }),
    text([right, top + 2], figures, {
      size: SMALL,
      anchor: 'end',
      tabular: true,
      ...(failing ? { ink: 'fail' as const, weight: 700 as const } : {}),
    }),
    text([left, top + 4.9], c.id, { size: SMALL - 0.3, ink: 'quiet' }),
    line([[left, top + 5.6], [left, top + 6.4 + BAR]], EDGE), // biome-ignore format: two ends
    line([[limit, top + 5.6], [limit, top + 6.4 + BAR]], EDGE), // biome-ignore format: two ends
  ]
}
