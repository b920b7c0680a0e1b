import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { createContext, useContext } from 'react'
import type { EngineClient } from './engine/client.ts'
import type { Preview, RiskView, Summary, WhatIfView } from './engine/protocol.ts'
import type { JobView } from './risk/jobs.ts'

export type Light = 'day' | 'dark' | 'sun'

/** One cell or entity of an edit that is being looked at. */
export interface Edit {
  pointer: string
  /** In words: what changes from what to what. */
  what: string
  /** What stood there when it was typed; undefined for nothing. */
  before: unknown
  /** A block of many cells under that address: taken whole or not at all. */
  isBlock?: boolean
}

/** Edits that are being looked at together and not yet kept. */
export interface Trial {
  patch: Patch
  edits: readonly Edit[]
  /** All edits in words. */
  what: string
  /** Why, in the words of whoever edits; goes to the log. */
  why: string
  /** The project with the edits in. */
  document: unknown
  preview: Preview
  /** The preview does not hold all of the edits yet. */
  pending: boolean
}

export interface LastEdit {
  what: string
  preview: Preview
  /** Told when it came from elsewhere: by whom and when it was kept, ISO 8601. */
  elsewhere?: { by: string; at: string }
}

/** A text that was typed into a place and not taken. */
export interface RefusedCell {
  text: string
  said: string
}

/** A place that two edits changed, and what each made of it. */
export interface Clash {
  pointer: string
  before: unknown
  mine: unknown
  theirs: unknown
}

/** An edit under which the project was changed: nothing of it is kept. */
export interface Conflict {
  edit: Trial
  clashes: readonly Clash[]
  changed: readonly { revision: number; by: string; at: string; why: string }[]
  /** What keeps both edits together from being a project. */
  problems: readonly Problem[]
}

/** How the page stands to its host. */
export type Link = { state: 'live' } | { state: 'lost'; since: number }

export interface Shown {
  client: EngineClient
  summary: Summary
  document: unknown
  revision: number
  system: UnitSystem
  light: Light
  trial: Trial | undefined
  last: LastEdit | undefined
  risk: RiskView | undefined
  riskStale: boolean
  /** Runs made so far while a simulation is under way, or why there is none. */
  riskRunning: number | undefined
  riskFault: string | undefined
  /** What each mitigation and option buys. */
  measures: JobView<WhatIfView>
  refused: readonly Problem[]
  refusedCells: ReadonlyMap<string, RefusedCell>
  /** Cells of a pasted block that were refused, line by line. */
  refusedLines: readonly string[]
  conflict: Conflict | undefined
  /** What undo and redo would do, in words; undefined when there is nothing. */
  history: { undo: string | undefined; redo: string | undefined }
  link: Link
  /** Why nothing can be kept from this page. */
  readOnly: string | undefined
  route: Route
  act: Actions
}

/** What can be done with edits: the page offers it, and the project's store does it. */
export interface EditActions {
  /**
   * Shows what an edit would do, on top of the edits already looked at; nothing is kept.
   *
   * @param block address under which all of it stands, when it is many cells that are taken whole or not at all
   */
  tryOut: (patch: Patch, what: string, block?: string) => void
  /** The text typed into a place is not taken, and stays there with what is said of it; undefined clears it. */
  refuse: (pointer: string, cell: RefusedCell | undefined) => void
  refuseLines: (lines: readonly string[]) => void
  setWhy: (why: string) => void
  keep: () => void
  discard: () => void
  undo: () => void
  redo: () => void
  /** An edit that was refused, looked at again on top of what came first. */
  tryAgain: () => void
  /**
   * A change that the host makes because this page asked for it: its own, and not another page's.
   *
   * @param send gives the revision that says so; undefined where there is none
   */
  hosted: (send: () => Promise<number | undefined>) => Promise<void>
}

export interface Actions extends EditActions {
  setSystem: (system: UnitSystem) => void
  setLight: (light: Light) => void
  runRisk: () => void
  cancelRisk: () => void
  runMeasures: () => void
  cancelMeasures: () => void
}

export interface Route {
  stage: string
  item: string | undefined
}

/** `#lift/crown-out` → the stage, and what is opened on it. */
export function routeOf(hash: string): Route {
  const [stage, ...item] = decodeURIComponent(hash.replace(/^#/, '')).split('/')
  return {
    stage: stage === undefined || stage === '' ? 'project' : stage,
    item: item.length === 0 ? undefined : item.join('/'),
  }
}

export const routeTo = (stage: string, item?: string): string =>
  `#${stage}${item === undefined ? '' : `/${encodeURIComponent(item)}`}`

const ShownContext = createContext<Shown | undefined>(undefined)
export const ShownProvider = ShownContext.Provider

/** What is on the page now. */
export function useShown(): Shown {
  const shown = useContext(ShownContext)
  if (shown === undefined) throw new Error('no project is shown')
  return shown
}
