import type { UnitSystem } from '../../working/quantity.ts'
import { type Drawing, drawing, type Mark, type PaperBox, standFor, textBox, textsOf } from '../drawing.ts'
import { type Campaign, type CampaignStages, campaignOf } from './campaign.ts'
import { placedCombs } from './combMarks.ts'
import { dateWishes, restartMarks, type Simulated, todayMarks } from './dateMarks.ts'
import { digMarks } from './digMarks.ts'
import { type Field, fieldOf, type Stretch } from './field.ts'
import { glassMarks } from './glass.ts'
import { footMarks, headMarks, type Issued } from './headMarks.ts'
import { labelBook } from './labelBook.ts'
import { laneMarks } from './laneMarks.ts'
import { type Paper, SHEETS, type Sheet, screenSheet } from './layout.ts'
import { rulerMarks } from './ruler.ts'
import { groundTint, sectionMarks } from './sectionMarks.ts'
import { type Baseline, slipMarks, slipWishes } from './slips.ts'
import { liftDayTicks, useMarks, windMarks } from './strips.ts'
import { supplyMarks } from './supplyMarks.ts'
import { eventMarks, machineBlock, trackBoxes, trackCasing, trackMarks } from './tracks.ts'
import { wishesOf } from './wishes.ts'
import { trackWords } from './words.ts'
import { placedWorks, workMarks } from './workMarks.ts'

export interface DiagramOptions {
  /** Sheet to print on; A2 when neither it nor a width is given. */
  paper?: Paper
  /** Width of the page in millimetres of a screen: then no head and no foot. */
  width?: number
  /** Lift days under the glass; on paper always. */
  glass?: boolean
  /** Whole days from the start that are drawn, and whether at one pace. */
  stretch?: Stretch
  units?: UnitSystem
  revision?: string
  /** Date of issue, and what content it is of: printed at the foot. */
  issued?: Issued
  /** Instants of the simulated restart, s from the start. */
  simulated?: Simulated
  /** An earlier plan, drawn dotted where a lift has moved; the agreed one unless another is given, and none with an empty one. */
  baseline?: Baseline
}

/** A diagram with what a page needs besides: where time lies, and what found no room. */
export interface CampaignSheet {
  drawing: Drawing
  field: Field
  dropped: readonly string[]
}

/** The diagram of the whole campaign on one sheet; undefined without a plan. */
export function campaignDiagram(stages: CampaignStages, options: DiagramOptions = {}): Drawing | undefined {
  const campaign = campaignOf(stages)
  return campaign === undefined ? undefined : campaignSheet(campaign, options).drawing
}

export function campaignSheet(campaign: Campaign, options: DiagramOptions = {}): CampaignSheet {
  const { units = 'SI', simulated, baseline = campaign.agreed?.activities, paper = 'A2', revision } = options
  const sheet = sheetOf(options)
  const field = fieldOf(campaign, sheet, stretchOf(campaign, options), units)
  const works = placedWorks(campaign, field)
  const combs = placedCombs(campaign, field)
  const under: Mark[] = [
    ...groundTint(campaign, field),
    ...digMarks(campaign, field, units),
    ...sectionMarks(campaign.model, field, units),
    ...laneMarks(campaign, field, units),
    ...machineBlock(campaign, field),
    ...restartMarks(campaign, field, simulated),
    ...rulerMarks(campaign, field),
    ...supplyMarks(campaign, field),
    ...windMarks(campaign, field, units),
    ...useMarks(campaign, field),
    ...liftDayTicks(campaign, field),
    ...field.rows.rows.flatMap(({ tracks }) => [
      ...tracks.flatMap((track) => trackCasing(track, campaign, field)),
      ...tracks.map((track) =>
        standFor(track.pointer, trackWords(track, campaign, units), [
          ...trackMarks(track, campaign, field),
          ...eventMarks(track, field),
        ]),
      ),
    ]),
    ...workMarks(works, campaign, field),
    ...slipMarks(field, baseline),
    ...combs.flatMap((comb) => comb.marks),
    ...todayMarks(campaign, field),
  ]
  const taken = takenBy(under, campaign, field, [...works.map((w) => w.bar), ...combs.map((c) => c.box)])
  const room = { ...field.layout.field, top: field.layout.uses.bottom, left: field.layout.field.left }
  const wishes = [
    ...dateWishes(campaign, field, simulated),
    ...slipWishes(field, baseline),
    ...wishesOf(campaign, field, works, combs, units),
  ]
  const labels = labelBook(wishes, taken, room)
  const marks = [
    ...under,
    ...labels.marks,
    ...glassMarks(campaign, field, units),
    ...headMarks(campaign, field, units, simulated, revision),
    ...footMarks(campaign, field, units, labels.dropped, {
      paper,
      ...(options.issued === undefined ? {} : { issued: options.issued }),
    }),
  ]
  return {
    drawing: drawing(`Campaign diagram, ${campaign.title}`, sheet.width, field.layout.height, marks),
    field,
    dropped: labels.dropped,
  }
}

const sheetOf = ({ paper = 'A2', width, glass = true }: DiagramOptions): Sheet =>
  width === undefined ? SHEETS[paper] : screenSheet(width, glass)

const DAY = 86_400

/** As far as the latest date that is drawn, when nothing else is asked. */
function stretchOf(campaign: Campaign, { stretch = {}, simulated }: DiagramOptions): Stretch {
  const last = Math.max(campaign.end, (simulated?.p90 ?? simulated?.p80 ?? 0) + 10 * DAY)
  return { ...stretch, to: stretch.to ?? Math.ceil(last / DAY) }
}

/** Words that are there already, tracks, bars and combs: no label stands on them. */
function takenBy(marks: readonly Mark[], campaign: Campaign, field: Field, bars: readonly PaperBox[]): PaperBox[] {
  return [
    ...textsOf(marks).map(textBox),
    ...campaign.tracks.flatMap((track) => trackBoxes(track, campaign, field)),
    ...bars,
  ]
}
