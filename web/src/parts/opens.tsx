import { useCallback, useRef, useState } from 'react'

/** Which number's working is open in a place, and the way back to that number. */
export interface Opened {
  key: string | undefined
  toggle: (key: string, from: HTMLElement) => void
  /** Closes it; the focus goes back to the number. */
  close: () => void
}

export function useOpened(): Opened {
  const [key, setKey] = useState<string>()
  const from = useRef<HTMLElement>(undefined)
  const close = useCallback(() => {
    setKey(undefined)
    from.current?.focus()
  }, [])
  const toggle = useCallback((wanted: string, button: HTMLElement) => {
    from.current = button
    setKey((now) => (now === wanted ? undefined : wanted))
  }, [])
  return { key, toggle, close }
}

interface OpensProps {
  opened: Opened
  /** What is opened; the panel under the table or sum asks for the same. */
  of: string
  /** Said to those who hear the page: "Hook load 628.0 t, working". */
  label?: string
  className?: string
  children: React.ReactNode
}

/** A number or a title that opens its working: pressed, or `w` while it has the focus. */
export function Opens({ opened, of, label, className = '', children }: OpensProps) {
  return (
    <button
      type="button"
      className={`opens ${className}`}
      aria-expanded={opened.key === of}
      aria-label={label}
      onClick={(event) => opened.toggle(of, event.currentTarget)}
      onKeyDown={(event) => {
        if (event.key !== 'w' || event.ctrlKey || event.metaKey || event.altKey) return
        event.preventDefault()
        event.stopPropagation()
        opened.toggle(of, event.currentTarget)
      }}
    >
      {children}
    </button>
  )
}
