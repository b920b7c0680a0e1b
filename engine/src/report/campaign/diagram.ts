import { showNumber } from '../../working/quantity.ts'
import { DAY, dayText } from '../civil.ts'
import {
  box,
  type Drawing,
  drawing,
  line,
  type Mark,
  type PaperBox,
  type PaperPoint,
  type Stroke,
  text,
  textBox,
  textsOf,
} from '../drawing.ts'
import { wrapText } from '../fontWidth.ts'
import { hatch } from '../paper/hatch.ts'
import { type Label, labelMarks } from '../paper/labels.ts'
import { ATTENTION, FINE, GRID, OUTLINE, RULE, THIN } from '../paper/pen.ts'
import { INVENTED } from '../sheet/cautions.ts'
import { type BayWork, type Campaign, type CampaignStages, campaignOf, type Lane, type Track } from './campaign.ts'
import { type Field, groundTint, shaftStrip } from './field.ts'
import { phaseMarks, rulerMarks } from './ruler.ts'
import { timeAxis } from './timeAxis.ts'
import { bundled, laneY, trackMarks } from './tracks.ts'

/** A2 landscape, mm. */
const PAGE = { width: 594, height: 420 }
const FIELD: PaperBox = { left: 122, top: 66, right: 582, bottom: 392 }
const STRIP: PaperBox = { left: 12, top: 66, right: 112, bottom: 392 }
const SMALLEST = 2.8
const LABEL = 3.2
const LANE_LEAST = 7

export interface DiagramOptions {
  /** Instants of the simulated restart, s from the start: even chance and four in five. */
  simulated?: { p50: number; p80: number }
}

/** The diagram of the whole campaign on one sheet; undefined without a plan. */
export function campaignDiagram(stages: CampaignStages, options: DiagramOptions = {}): Drawing | undefined {
  const campaign = campaignOf(stages)
  if (campaign === undefined) return undefined
  const field = fieldOf(campaign, stages)
  const marks: Mark[] = [
    ...groundTint(stages.model, field, FIELD),
    ...shaftStrip(stages.model, field, STRIP),
    ...laneMarks(campaign, field),
    ...rulerMarks(campaign, field.axis, FIELD),
    ...phaseMarks(stages.programme, field.axis, FIELD),
    ...machineMarks(campaign, stages, field),
    ...workMarks(campaign, field),
    ...campaign.tracks.flatMap((track) => trackMarks(track, campaign, field)),
    ...dateMarks(campaign, field, options),
    ...headMarks(campaign, stages),
  ]
  const taken = textsOf(marks).map(textBox)
  const labels = labelMarks(labelsOf(campaign, field), taken, { ...FIELD, top: FIELD.top + 2, left: FIELD.left - 2 })
  return drawing(`Campaign diagram, ${campaign.title}`, PAGE.width, PAGE.height, [
    ...marks,
    ...labels,
    ...footMarks(campaign, stages),
  ])
}

function fieldOf(campaign: Campaign, { model }: CampaignStages): Field {
  const { shaft, machine } = model.project
  const deepest =
    shaft === undefined
      ? (machine?.pose.origin[2].value ?? 0) - 10
      : (shaft.slabTop.value as number) - (shaft.slabThickness.value as number) - 4
  const laneHeight = Math.max(LANE_LEAST, Math.min(16, 110 / campaign.lanes.length))
  const collar = FIELD.top + 14 + laneHeight * campaign.lanes.length + 6
  const scale = [200, 250, 300, 400, 500, 750, 1000].find((s) => (-deepest * 1000) / s <= FIELD.bottom - collar) ?? 2000
  const axis = timeAxis({
    from: Math.floor(campaign.begin / DAY),
    to: Math.ceil(campaign.end / DAY),
    lifts: campaign.liftDays,
    works: campaign.works.map((w) => [Math.floor(w.start / DAY), Math.ceil(w.finish / DAY)] as const),
    left: FIELD.left,
    right: FIELD.right,
  })
  const lanes = new Map(
    campaign.lanes.map(
      ({ bay }, i) =>
        [bay, { top: FIELD.top + 14 + i * laneHeight, bottom: FIELD.top + 14 + (i + 1) * laneHeight }] as const,
    ),
  )
  return { axis, collar, scale, lanes, room: FIELD, yOf: (level) => collar - (level * 1000) / scale }
}

function laneMarks({ lanes }: Campaign, field: Field): Mark[] {
  return lanes.flatMap(({ bay, distance, allowable }: Lane): Mark[] => {
    const { top, bottom } = field.lanes.get(bay) as { top: number; bottom: number }
    const capacity = allowable === undefined ? '' : `, ${showNumber(allowable / 1000, 0)} kPa`
    return [
      line(
        [
          [FIELD.left, bottom],
          [FIELD.right, bottom],
        ],
        GRID,
      ),
      text([FIELD.left - 3, (top + bottom) / 2 + 0.4], bay, { size: 4, weight: 700, anchor: 'end' }),
      text([FIELD.left - 3, (top + bottom) / 2 + 3.6], `${showNumber(distance, 1)} m${capacity}`, {
        size: SMALLEST,
        ink: 'quiet',
        anchor: 'end',
      }),
    ]
  })
}

/** The machine lies in the shaft from the first lift to the last return; inside it pieces are ordered by their levels. */
function machineMarks({ tracks }: Campaign, { model }: CampaignStages, field: Field): Mark[] {
  const { machine, shaft } = model.project
  const radius = (machine?.shieldDiameter?.value ?? 12) / 2
  const centre = machine?.pose.origin[2].value ?? shaft?.slabTop.value ?? 0
  const first = Math.min(...tracks.filter((t) => t.off === undefined).map((t) => t.out))
  const [left, right] = [Math.max(FIELD.left, field.axis.xAt(first - 14 * DAY)), FIELD.right]
  const [top, bottom] = [field.yOf(centre + radius), field.yOf(centre - radius)]
  return [
    box({ left, right, top, bottom }, { fill: 'paper', stroke: THIN }),
    text([left + 1.4, bottom - 1.4], 'machine: order by level, not to scale', { size: SMALLEST, ink: 'quiet' }),
    line(
      [
        [FIELD.left, field.collar],
        [FIELD.right, field.collar],
      ],
      OUTLINE,
    ),
  ]
}

/** Bars of work: hatched on the lane of its bay, or on the floor of the shaft. */
function workMarks({ works }: Campaign, field: Field): Mark[] {
  return works.flatMap((work): Mark[] => {
    const lane = field.lanes.get(work.where)
    if (lane === undefined) return []
    const bar: PaperBox = {
      left: field.axis.xAt(work.start),
      right: field.axis.xAt(work.finish),
      top: lane.bottom - 3.2,
      bottom: lane.bottom - 0.8,
    }
    const shape = box(bar, { fill: 'pale', stroke: FINE })
    return [shape, ...hatch(shape.loops, 0.9, Math.PI / 4, { width: 0.12, ink: 'edge' })]
  })
}

function dateMarks(campaign: Campaign, field: Field, { simulated }: DiagramOptions): Mark[] {
  const upright = (seconds: number, stroke: Stroke): Mark =>
    line(
      [
        [field.axis.xAt(seconds), FIELD.top + 3],
        [field.axis.xAt(seconds), FIELD.bottom],
      ],
      stroke,
    )
  return [
    ...(campaign.restart === undefined ? [] : [upright(campaign.restart, { ...ATTENTION, width: 0.7 })]),
    ...(campaign.today === undefined ? [] : [upright(campaign.today, ATTENTION)]),
    ...(simulated === undefined ? [] : simulatedMarks(campaign, field, simulated)),
  ]
}

function simulatedMarks(_campaign: Campaign, field: Field, { p50, p80 }: { p50: number; p80: number }): Mark[] {
  const room = { left: field.axis.xAt(p50), right: field.axis.xAt(p80), top: FIELD.top + 3, bottom: FIELD.bottom }
  return [
    ...hatch(box(room, {}).loops, 1.6, Math.PI / 4, { width: 0.18, ink: 'fail' }),
    box(room, { stroke: { width: 0.25, ink: 'fail', dash: [1.5, 1] } }),
  ]
}

function labelsOf(campaign: Campaign, field: Field): Label[] {
  const { origin, tracks, restart } = campaign
  const bundles = bundled(tracks)
  const labels = bundles.flatMap((bundle): Label[] => {
    const [first, last] = [bundle[0] as Track, bundle.at(-1) as Track]
    const y = laneY(first, campaign, field)
    const count = bundle.length > 1 ? `${bundle.length} × ` : ''
    const name = bundle.length > 1 ? first.name.replace(/[\s-]*\d+$/, '') : first.name
    const days =
      first === last ? dayText(origin, first.out) : `${dayText(origin, first.out)} to ${dayText(origin, last.out)}`
    const mass = first.mass === undefined ? 'mass open' : `${showNumber(first.mass / 1000, 1)} t`
    return [
      {
        lines: [
          `${count}${name} out ${days}`,
          `${mass}${first.use === undefined ? '' : `, use ${showNumber(first.use, 2)}`}`,
        ],
        at: [field.axis.xAt(first.out), y],
        towards: 180,
        from: 1.4,
        weight: 700,
        size: SMALLEST,
        backed: true,
      },
      ...returnLabel(bundle, campaign, field, y),
    ]
  })
  const works = campaign.works.flatMap((w): Label[] => workLabel(w, field))
  const dates =
    restart === undefined
      ? []
      : [
          {
            lines: [`restart planned ${dayText(origin, restart, true)}`],
            at: [field.axis.xAt(restart), FIELD.top + 9] as PaperPoint,
            towards: 180,
            ink: 'fail' as const,
            weight: 700 as const,
            size: LABEL,
            backed: true,
          },
        ]
  return [...dates, ...labels, ...works]
}

function returnLabel(bundle: readonly Track[], campaign: Campaign, field: Field, y: number): Label[] {
  const last = bundle[0] as Track
  const first = bundle.at(-1) as Track
  if (first.back === undefined || last.back === undefined) return []
  const days =
    first === last
      ? dayText(campaign.origin, first.back)
      : `${dayText(campaign.origin, first.back)} to ${dayText(campaign.origin, last.back)}`
  const more = last.mass === undefined || last.massBack === undefined ? 0 : last.massBack - last.mass
  const change = Math.abs(more) < 50 ? '' : `, ${more > 0 ? '+' : '−'}${showNumber(Math.abs(more) / 1000, 1)} t`
  return [
    {
      lines: [`back ${days}${change}`],
      at: [field.axis.xAt(last.back), y],
      towards: 0,
      from: 1.4,
      size: SMALLEST,
      ink: more > 50 ? 'fail' : 'ink',
      backed: true,
    },
  ]
}

const LONG = 9

function workLabel(work: BayWork, field: Field): Label[] {
  const lane = field.lanes.get(work.where)
  const [left, right] = [field.axis.xAt(work.start), field.axis.xAt(work.finish)]
  if (lane === undefined || right - left < LONG) return []
  const words = wrapText(work.name, { size: SMALLEST, weight: 400, tabular: false }, Math.max(26, right - left))
  return [
    {
      lines: words.slice(0, 2),
      at: [(left + right) / 2, lane.bottom - 0.8],
      towards: -90,
      from: 0.4,
      size: SMALLEST,
      ink: 'quiet',
      backed: true,
    },
  ]
}

function headMarks(campaign: Campaign, { model }: CampaignStages): Mark[] {
  const next =
    campaign.today === undefined ? campaign.tracks[0] : campaign.tracks.find((t) => t.out > (campaign.today as number))
  const sentence =
    next === undefined
      ? 'Every piece is out.'
      : `${campaign.today === undefined ? 'First' : 'Next'}: ${next.name}, ${dayText(campaign.origin, next.out, true)}.`
  const restart =
    campaign.restart === undefined
      ? ''
      : ` Restart planned ${dayText(campaign.origin, campaign.restart, true)}${campaign.restartUnlimited === undefined ? '' : `; ${dayText(campaign.origin, campaign.restartUnlimited)} if nobody queued`}.`
  return [
    text([12, 20], 'Campaign diagram', { size: 7, weight: 700 }),
    text([12, 26], campaign.title, { size: LABEL, ink: 'quiet' }),
    ...(model.project.about.invented ? [text([12, 30.5], INVENTED, { size: LABEL, ink: 'quiet' })] : []),
    text([FIELD.left, 20], sentence + restart, { size: 4.5 }),
    text([FIELD.left, 26], 'A forecast from stated assumptions; never a reason to shorten a hold point.', {
      size: LABEL,
      ink: 'quiet',
    }),
    text(
      [FIELD.left, 31],
      'Each box of the ruler is one week; where boxes widen, time is stretched; a tear marks each change.',
      { size: SMALLEST, ink: 'quiet' },
    ),
  ]
}

function footMarks({ crossings, lanes }: Campaign, { model }: CampaignStages): Mark[] {
  const own = model.project.about.invented ? ' Invented data.' : ''
  const words = `Hollow track: to come. Dashed: under 10 t. Thickness: under 10, under 100, over 100 t. Hatched bar: work on the bay. Lanes stand in the order in which tracks cross least (${crossings} crossings of ${lanes.length} lanes).${own}`
  return [
    line(
      [
        [12, 400],
        [PAGE.width - 12, 400],
      ],
      RULE,
    ),
    text([12, 405], words, { size: SMALLEST, ink: 'quiet' }),
  ]
}
