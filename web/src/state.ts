import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { createContext, useContext } from 'react'
import type { EngineClient } from './engine/client.ts'
import type { Preview, RiskView, Summary } from './engine/protocol.ts'

export type Light = 'day' | 'dark' | 'sun'

/** An edit that is being looked at and not yet kept. */
export interface Trial {
  patch: Patch
  /** In words: what changes from what to what. */
  what: string
  preview: Preview
}

export interface LastEdit {
  what: string
  preview: Preview
  undo: Patch
}

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
  refused: readonly Problem[]
  route: Route
  act: Actions
}

export interface Actions {
  setSystem: (system: UnitSystem) => void
  setLight: (light: Light) => void
  tryOut: (patch: Patch, what: string) => void
  keep: () => void
  discard: () => void
  undo: () => void
  runRisk: () => void
  cancelRisk: () => void
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
