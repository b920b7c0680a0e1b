import type { GroundStep } from '../../ground/index.ts'
import type { Answer } from '../../working/answer.ts'
import { showNumber, shownScale } from '../../working/quantity.ts'
import { box, line, type Mark, type PaperBox, standFor, text, type View } from '../drawing.ts'
import { roomOf } from '../paper/border.ts'
import { ATTENTION, FINE, GRID, HIDDEN, SMALL } from '../paper/pen.ts'
import { OPEN } from '../sheet/figures.ts'
import { HEADING, underHead, viewHead } from '../views/head.ts'
import { layoutOf } from './layout.ts'
import type { SiteDocument } from './sheets.ts'
import type { SiteSubject } from './subject.ts'

/** Steps on one sheet. */
const MOST_STEPS = 48
const NAMES = 50
const BETWEEN = 8
/** Room for the figure beyond the longest bar, mm. */
const FIGURE = 13
const TALLEST = 6
const FOOT = 8

/** What one panel shows of a step, Pa. */
interface Panel {
  title: string
  under: string
  of: (step: GroundStep) => Answer<'Pa'> | undefined
  /** What the bar must not pass: the same for all, or of each. */
  limit: (step: GroundStep) => number | undefined
}

/** Pressure on the wall, on the bay and on the cradle, step by step along the order: sheets of their own; none without an order. */
export function pressureSheets(subject: SiteSubject): SiteDocument[] {
  const { steps } = subject.stages.ground
  const { size } = layoutOf(subject.options.paper ?? 'A3', { wide: 2, high: 1, padWide: 0, padHigh: 0 })
  const room = roomOf(size)
  const layout = { size, ratio: undefined, view: room, columns: [] }
  const sheets = Array.from({ length: Math.ceil(steps.length / MOST_STEPS) }, (_, i) =>
    steps.slice(i * MOST_STEPS, (i + 1) * MOST_STEPS),
  )
  return sheets.map((some) => ({
    title: 'Pressures over the campaign',
    layout,
    views: [pressuresView(subject, some, room)],
    rows: () => [],
    notes: () => [],
  }))
}

function panelsOf({ stages }: SiteSubject): Panel[] {
  const { shaft, bays } = stages.model.project
  return [
    {
      title: 'Sideways on the wall',
      under: 'from what stands around the shaft; dashed, what the wall was designed for',
      of: ({ wall }) => wall?.pressure,
      limit: () => shaft?.wall.surcharge?.value,
    },
    {
      title: 'On the bay',
      under: 'under the piece that is set down; dashed, what its bay may carry',
      of: ({ landing }) => landing?.pressure,
      limit: ({ landing }) => (landing === undefined ? undefined : bays[landing.bay]?.allowable.value),
    },
    {
      title: 'On the cradle, before the step',
      under: 'at the bottom of the bed, no factor',
      of: ({ cradle }) => cradle?.pressure,
      limit: () => undefined,
    },
  ]
}

/** All panels with the same steps beside them. */
function pressuresView(subject: SiteSubject, steps: readonly GroundStep[], room: PaperBox): View {
  const body = underHead(room)
  const top = body.top + HEADING
  const pitch = Math.min(TALLEST, (body.bottom - FOOT - top) / steps.length)
  const panels = panelsOf(subject)
  const width = (body.right - body.left - NAMES - BETWEEN * panels.length) / panels.length
  const names = steps.map((s, i) =>
    text([body.left, top + (i + 0.5) * pitch + SMALL * 0.36], s.step, {
      size: SMALL,
      weight: isGoverning(subject, s) ? 700 : 400,
    }),
  )
  const drawn = panels.flatMap((panel, k) => {
    const left = body.left + NAMES + BETWEEN + k * (width + BETWEEN)
    return panelMarks(subject, steps, panel, { left, right: left + width, top, bottom: top + pitch * steps.length })
  })
  return {
    kind: 'view',
    id: 'site-pressures',
    title: 'Pressures over the campaign, step by step',
    marks: [
      ...viewHead(
        '1',
        'Pressures over the campaign',
        'the order from top to bottom; in bold the step that presses most on the wall',
        room,
      ),
      ...names,
      ...drawn,
    ],
  }
}

const isGoverning = ({ stages }: SiteSubject, { step }: GroundStep): boolean => stages.ground.governing === step

function panelMarks({ units }: SiteSubject, steps: readonly GroundStep[], panel: Panel, at: PaperBox): Mark[] {
  const values = steps.flatMap((s) => [panel.of(s)?.value ?? 0, panel.limit(s) ?? 0])
  const most = Math.max(...values)
  const scale = shownScale(most, 'Pa', units)
  const x = (value: number): number => at.left + (most === 0 ? 0 : (value / most) * (at.right - at.left - FIGURE))
  const pitch = (at.bottom - at.top) / steps.length
  return [
    text([at.left, at.top - 6.4], panel.title, { size: SMALL + 0.3, weight: 700 }),
    text([at.right, at.top - 6.4], scale.label, { size: SMALL, anchor: 'end', ink: 'quiet' }),
    text([at.left, at.top - 2.6], panel.under, { size: SMALL, ink: 'quiet' }),
    line([[at.left, at.top], [at.left, at.bottom]], FINE), // biome-ignore format: two ends
    ...steps.flatMap((step, i): Mark[] => {
      const [pressure, limit] = [panel.of(step), panel.limit(step)]
      if (pressure === undefined) return []
      const { value = 0 } = pressure
      const y = at.top + i * pitch
      const bar = { left: at.left, right: x(value), top: y + pitch * 0.2, bottom: y + pitch * 0.8 }
      const isOver = limit !== undefined && value > limit
      const words = pressure.value === undefined ? OPEN : showNumber(value / scale.factor, scale.decimals)
      return [
        standFor(`/steps/${step.step}`, `${panel.title}, ${step.step}, ${words} ${scale.label}`, [
          box(bar, { fill: 'hair', stroke: isOver ? ATTENTION : FINE }),
          text([Math.max(bar.right, limit === undefined ? 0 : x(limit)) + 1.2, y + pitch / 2 + SMALL * 0.36], words, {
            size: SMALL,
            tabular: true,
            ...(isOver ? { ink: 'fail', weight: 700 } : {}),
          }),
          ...(limit === undefined ? [] : [line([[x(limit), y], [x(limit), y + pitch]], HIDDEN)]), // biome-ignore format: two ends
        ]),
        line([[at.left, y + pitch], [at.right, y + pitch]], GRID), // biome-ignore format: two ends
      ]
    }),
  ]
}
