import { useEffect, useRef, useState } from 'react'
import type { DrawnView } from '../engine/protocol.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useCommonStore } from '../shared.ts'
import { useShown } from '../state.ts'

/** Which piece waits for which, as a drawing; it is worked out when it is opened, and printed by itself. */
export function Precedence() {
  const [open, setOpen] = useState(false)
  return (
    <section>
      <div className="titled">
        <h2>Which piece waits for which</h2>
        <button type="button" className="link small" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'fold it' : 'draw it'}
        </button>
      </div>
      {open ? (
        <Picture />
      ) : (
        <p className="small quiet">From contacts, joints and services: what has to go before a piece can.</p>
      )}
    </section>
  )
}

function Picture() {
  const { client, summary } = useShown()
  const { set } = useCommonStore()
  const [drawn, setDrawn] = useState<DrawnView | null>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn again when the project changes
  useEffect(() => {
    let here = true
    client.ask('precedence', {}).then((view) => here && setDrawn(view ?? null))
    return () => {
      here = false
    }
  }, [client, summary])
  const box = useRef<HTMLDivElement>(null)
  if (drawn === undefined) return <p className="quiet">working: ways out of every piece</p>
  if (drawn === null) return <p>No piece is planned yet.</p>
  const chosen = (event: React.MouseEvent): void => {
    const about = (event.target as Element).closest<SVGElement>('[data-about]')?.dataset.about
    if (about !== undefined) set({ selected: about })
  }
  return (
    <>
      <p className="small quiet">
        Numbers are places in the order; a piece stands to the right of what it waits for. Dashed: another piece would
        do as well.{' '}
        <button type="button" className="link" onClick={() => printed(box.current)}>
          Print it
        </button>
        , or take <OrderSheets /> along
      </p>
      <Scroll name={drawn.title}>
        {/* biome-ignore lint/a11y/useKeyWithClickEvents: selecting by pointer; the same pieces are buttons in the table of the order */}
        <div ref={box} className="precedence" role="img" aria-label={drawn.title} onClick={chosen}>
          {/* biome-ignore lint/security/noDangerouslySetInnerHtml: SVG written by the engine's own writer, text escaped there */}
          <div aria-hidden="true" dangerouslySetInnerHTML={{ __html: drawn.svg }} />
        </div>
      </Scroll>
    </>
  )
}

/** Prints this drawing alone. */
function printed(box: HTMLElement | null): void {
  if (box === null) return
  document.documentElement.classList.add('printing-one')
  box.classList.add('printed')
  const done = (): void => {
    document.documentElement.classList.remove('printing-one')
    box.classList.remove('printed')
    removeEventListener('afterprint', done)
  }
  addEventListener('afterprint', done)
  window.print()
}

/** The order on paper: what each step waits for, and what blocks it. */
function OrderSheets() {
  const { system } = useShown()
  const href = (paper: string): string => `/api/report/order/order.pdf?units=${system}&paper=${paper}`
  return (
    <>
      <a href={href('A4')}>the order, A4</a> or <a href={href('Letter')}>Letter</a>
    </>
  )
}
