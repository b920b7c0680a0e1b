import type { Stages } from '@shieldwright/engine'
import {
  type AgendaEvent,
  type AgendaPiece,
  agendaOf,
  type Baseline,
  type Campaign,
  campaignOf,
  campaignSheet,
  nextWords,
  restartWords,
  type Simulated,
  type Stop,
  type Stretch,
  tallyWords,
} from '@shieldwright/engine/report/campaign/index.ts'
import { svgOf } from '@shieldwright/engine/report/index.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { PAGE_INKS } from '../engine/pageInks.ts'

/** Another plan beside this one: as it was before the last edit, as it was agreed, or none. */
export type Dotted = 'earlier' | 'agreed' | 'none'

/** How the page wants the diagram. */
export interface CampaignAsk {
  /** Width of its place, millimetres of a screen. */
  width: number
  /** Days from the start of the plan that are shown; absent, all. */
  from?: number
  to?: number
  isEven: boolean
  glass: boolean
  system: UnitSystem
  /** Restart as simulated, UTC milliseconds. */
  simulated?: { p10: number; p50: number; p80: number; p90: number }
  /** Which other plan is drawn dotted, as far as there is one. */
  dotted: Dotted
}

/** The diagram with what one needs to move in it. */
export interface CampaignView {
  title: string
  svg: string
  width: number
  height: number
  next: string
  restart: string
  /** Where time lies across. */
  stretches: readonly Stretch[]
  /** Days that are shown, and those there are. */
  shown: { from: number; to: number }
  whole: { from: number; to: number }
  events: readonly AgendaEvent[]
  pieces: readonly AgendaPiece[]
  today: number | undefined
  /** Labels that found no room. */
  dropped: readonly string[]
  /** Lifts that have no window of their own. */
  tally: string
  hasEarlier: boolean
  /** What the agreed plan is called. */
  agreed: string | undefined
  /** Hours of a day in which lifts may go on. */
  hours: { from: number; to: number }
  /** When each stop along the order is reached. */
  stops: readonly Stop[]
  /** Where the plan's clock begins, UTC milliseconds. */
  zero: number
  /** Foot of the field, mm. */
  foot: number
}

const DAY = 86_400
const INKS = { ...PAGE_INKS, air: 'var(--air)' }

/** When the places along the order are reached. */
export interface TimesView {
  stops: readonly Stop[]
  /** Where the plan's clock begins, UTC milliseconds. */
  zero: number
}

/** Keeps the campaign of the last stages, so that a change of zoom only draws again. */
export function campaignDesk() {
  let of: Stages | undefined
  let campaign: Campaign | undefined
  const campaignHeld = (stages: Stages): Campaign | undefined => {
    if (of !== stages) [of, campaign] = [stages, campaignOf(stages)]
    return campaign
  }
  return {
    view: (stages: Stages, ask: CampaignAsk, earlier: Baseline | undefined): CampaignView | undefined => {
      const held = campaignHeld(stages)
      return held === undefined ? undefined : campaignView(held, stages, ask, earlier)
    },
    times: (stages: Stages): TimesView | undefined => {
      const held = campaignHeld(stages)
      return held === undefined ? undefined : { stops: held.stops, zero: Date.parse(held.origin) }
    },
  }
}

function campaignView(
  campaign: Campaign,
  stages: Stages,
  ask: CampaignAsk,
  earlier: Baseline | undefined,
): CampaignView {
  const { width, isEven, glass, system, dotted } = ask
  const simulated = simulatedOf(ask, stages)
  const stretch = {
    isEven,
    ...(ask.from === undefined ? {} : { from: ask.from }),
    ...(ask.to === undefined ? {} : { to: ask.to }),
  }
  const { drawing, field, dropped } = campaignSheet(campaign, {
    width,
    glass,
    units: system,
    stretch,
    ...(simulated === undefined ? {} : { simulated }),
    ...(dotted === 'earlier' && earlier !== undefined ? { baseline: earlier } : {}),
    ...(dotted === 'none' ? { baseline: {} } : {}),
  })
  const agenda = agendaOf(campaign, system)
  return {
    title: drawing.title,
    svg: namedGroups(svgOf(drawing, INKS)),
    width: drawing.width,
    height: drawing.height,
    next: nextWords(campaign, system),
    restart: restartWords(campaign, simulated),
    stretches: field.axis.stretches,
    shown: { from: field.axis.from / DAY, to: field.axis.to / DAY },
    whole: { from: 0, to: Math.ceil(Math.max(campaign.end, (simulated?.p90 ?? 0) + 10 * DAY) / DAY) },
    ...agenda,
    today: campaign.today,
    dropped,
    tally: tallyWords(campaign, field, system),
    hasEarlier: earlier !== undefined,
    agreed: campaign.agreed?.name,
    hours: campaign.hours,
    stops: campaign.stops,
    zero: Date.parse(campaign.origin),
    foot: field.layout.field.bottom,
  }
}

function simulatedOf({ simulated }: CampaignAsk, { programme }: Stages): Simulated | undefined {
  const zero = programme.origin === undefined ? Number.NaN : Date.parse(programme.origin)
  if (simulated === undefined || Number.isNaN(zero)) return undefined
  const at = (instant: number): number => (instant - zero) / 1000
  return { p10: at(simulated.p10), p50: at(simulated.p50), p80: at(simulated.p80), p90: at(simulated.p90) }
}

const GROUP = /<g class="about" data-about="([^"]*)">\n<title>([^<]*)<\/title>/g
const CAN_BE_OPENED = /^\/(pieces|lifts|programme\/(activities|deliveries))\//

/** Each group says its sentence by its name, not by a caption that appears late; what can be selected is a button. */
const namedGroups = (svg: string): string =>
  svg
    .replace(/^<svg [^>]*?viewBox/, (head) => head.replace('<svg ', '<svg role="group" '))
    .replace(/<title>[^<]*<\/title>\n(?=<(?:path|g class="view"|text|circle))/, '')
    .replace(GROUP, (_, pointer: string, words: string) =>
      CAN_BE_OPENED.test(pointer)
        ? `<g class="about" data-about="${pointer}" role="button" tabindex="-1" aria-label="${words}">`
        : `<g class="about" data-about="${pointer}" role="img" aria-label="${words}">`,
    )
