import { epochOf } from '../../model/index.ts'
import type { ProgrammeResult } from '../../programme/index.ts'
import type { UnitSystem } from '../../working/quantity.ts'
import type { Drawing } from '../drawing.ts'
import { DEFERRAL, INVENTED } from '../sheet/cautions.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'
import { liftSheetPages } from '../sheet/pages.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { tickGround } from './ground.ts'
import { isolationList, jointList, liftList, servicesOff, servicesOn, shiftLists, testList } from './lists.ts'
import { type SiteWork, workOfLift, workOfShift, workOfStep } from './work.ts'

/** What the file is of: lifts by id, a step of the order, or the shift under way at a moment. */
export type OnSiteScope =
  | { lifts: readonly string[] }
  | { step: string }
  /** Absent: the data date, else today. */
  | { at?: string | undefined }

export interface OnSiteStages extends SheetStages {
  programme: ProgrammeResult
}

/** One box to tick. */
export interface OnSiteTick {
  /** Address of what it records; `sheet/…` where the project keeps nothing of it. */
  at: string
  words: string
  /** Recorded already when the file was made. */
  stands?: { by: string; on: string }
}

/** One line of a list. */
export interface OnSiteLine {
  title: string
  facts: string
  /** What has to be signed or seen before the work goes on. */
  hold?: string
  /** Held against the project when a tick comes back. */
  says: string
  ticks: readonly OnSiteTick[]
}

export interface OnSiteList {
  id: string
  title: string
  /** Said above the lines. */
  notes: readonly string[]
  lines: readonly OnSiteLine[]
}

/** Everything that the file for the site holds, as plain data. */
export interface OnSite {
  project: string
  scope: string
  units: UnitSystem
  revision: string | undefined
  contentHash: string
  date: string
  notice: string
  deferral: string
  lists: readonly OnSiteList[]
  sheets: readonly { lift: string; pages: readonly Drawing[] }[]
}

/** The issue has to be fixed: ticks come back to a revision and a content. */
export type OnSiteIssue = SheetOptions & { contentHash: string; date: string }

/**
 * The lists and sheets that are taken to the site, for a shift, a step or some lifts.
 *
 * @returns undefined where there is no such lift or step; no lists where nothing is to be done
 */
export function onSite(stages: OnSiteStages, scope: OnSiteScope, issue: OnSiteIssue): OnSite | undefined {
  const work = workOf(stages, scope)
  if (work === undefined) return undefined
  const { about, settings } = stages.model.project
  const units = issue.units ?? settings.units
  return {
    project: about.title,
    scope: work.words,
    units,
    revision: issue.revision,
    contentHash: issue.contentHash,
    date: issue.date,
    notice: about.invented ? INVENTED : '',
    deferral: DEFERRAL,
    lists: listsOf(stages, work, units),
    sheets: work.lifts.flatMap((lift) => {
      const pages = liftSheetPages(stages, lift, { ...issue, units, paper: 'A4' })
      return pages === undefined ? [] : [{ lift, pages }]
    }),
  }
}

function workOf(stages: OnSiteStages, scope: OnSiteScope): SiteWork | undefined {
  if ('step' in scope) return workOfStep(stages, scope.step)
  if ('lifts' in scope) return workOfLift(stages, scope.lifts)
  const { programme } = stages.model.project
  const zone = stages.programme.solved?.zone
  const at =
    scope.at === undefined || programme === undefined || zone === undefined
      ? undefined
      : Math.max(0, (epochOf(scope.at, programme.timeZone, 'first') - zone.origin) / 1000)
  return workOfShift(stages, at)
}

function listsOf(stages: OnSiteStages, work: SiteWork, units: UnitSystem): OnSiteList[] {
  const ground = tickGround(stages)
  return [
    ...shiftLists(stages, work, ground),
    isolationList(work, ground),
    ...servicesOff(stages, work, ground),
    ...work.opened.map(({ step, joints }) => jointList(ground, step, joints, 'opened')),
    ...work.lifts.flatMap((lift) => liftList(stages, lift, { units, ground }) ?? []),
    ...work.closed.map(({ step, joints }) => jointList(ground, step, joints, 'closed')),
    ...servicesOn(stages, work, ground),
    testList(stages, work),
  ].filter(({ lines }) => lines.length > 0)
}
