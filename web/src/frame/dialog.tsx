import './dialog.css'
import { useEffect, useRef } from 'react'

interface DialogText {
  name: string
  onClose: () => void
  children: React.ReactNode
}

/** Something opened over the page; Esc closes it, and the focus goes back to where it was. */
export function Dialog({ name, onClose, children }: DialogText) {
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => {
    const from = document.activeElement
    dialog.current?.showModal()
    return () => {
      if (from instanceof HTMLElement && from.isConnected) from.focus()
    }
  }, [])
  return (
    <dialog ref={dialog} className="over" aria-label={name} onClose={onClose}>
      {children}
      <p className="small closing">
        <button type="button" className="link" onClick={() => dialog.current?.close()}>
          Close <kbd>Esc</kbd>
        </button>
      </p>
    </dialog>
  )
}
