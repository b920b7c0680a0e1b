import { createContext, useContext, useSyncExternalStore } from 'react'

/** What every view has in common: one selection, and one place along the order and in time. */
export interface Common {
  /** JSON Pointer of the entity that is selected, such as `/pieces/head`, `/parts/FS-CR`, `/lifts/crown-out`. */
  selected: string | undefined
  /**
   * Stops along the order of N steps: 0 as found, n after step n, fractions on the way of a step. Beyond N the way back: N + k
   * after the last k steps have been undone, 2N when all that comes back is back. What shows only the way out reads N for more.
   */
  along: number
  /** The instant that was chosen, s of the plan's clock; undefined where it is the one at which `along` is reached. */
  instant: number | undefined
}

/** Holds what the views have in common; only the views that read it are drawn again when it changes. */
export interface CommonStore {
  now: () => Common
  set: (change: Partial<Common>) => void
  subscribe: (told: () => void) => () => void
}

export function commonStore(): CommonStore {
  let common: Common = { selected: undefined, along: 0, instant: undefined }
  const listeners = new Set<() => void>()
  return {
    now: () => common,
    set: (change) => {
      const elsewhere = change.along !== undefined && change.along !== common.along
      common = { ...common, ...(elsewhere ? { instant: undefined } : {}), ...change }
      for (const told of listeners) told()
    },
    subscribe: (told) => {
      listeners.add(told)
      return () => listeners.delete(told)
    },
  }
}

const CommonContext = createContext<CommonStore | undefined>(undefined)
export const CommonProvider = CommonContext.Provider

/** The store itself, for what writes to it many times a second and must not be drawn again each time. */
export function useCommonStore(): CommonStore {
  const store = useContext(CommonContext)
  if (store === undefined) throw new Error('no views have anything in common here')
  return store
}

/** What is selected and how far along the order, and how to change either. */
export function useCommon(): Common & Pick<CommonStore, 'set'> {
  const store = useCommonStore()
  return { ...useSyncExternalStore(store.subscribe, store.now), set: store.set }
}

/** What is selected, and how to change it; drawn again when that changes, and not with every place along the order. */
export function useSelected(): Pick<Common, 'selected'> & Pick<CommonStore, 'set'> {
  const { now, set, subscribe } = useCommonStore()
  return { selected: useSyncExternalStore(subscribe, () => now().selected), set }
}
