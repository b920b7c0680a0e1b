import { useCallback, useState } from 'react'

/** Names under which this browser keeps what its reader chose. */
export type RememberedName = 'light' | 'units' | 'keys' | 'first' | 'person' | 'consequences' | `changed.${number}`

/** What was chosen before; undefined where nothing was, or where the browser keeps nothing. */
export function recall(name: RememberedName): string | undefined {
  try {
    return localStorage.getItem(`shieldwright.${name}`) ?? undefined
  } catch {
    return undefined // Storage is shut: the page works without it.
  }
}

export function remember(name: RememberedName, value: string): void {
  try {
    localStorage.setItem(`shieldwright.${name}`, value)
  } catch {
    // Storage is shut or full: the choice holds until the page is closed.
  }
}

/** A choice out of a few that outlives the page. */
export function useRemembered<T extends string>(
  name: RememberedName,
  of: readonly T[],
  atFirst: () => T,
): [T, (value: T) => void] {
  const [value, setValue] = useState<T>(() => of.find((v) => v === recall(name)) ?? atFirst())
  const choose = useCallback(
    (chosen: T) => {
      remember(name, chosen)
      setValue(chosen)
    },
    [name],
  )
  return [value, choose]
}
