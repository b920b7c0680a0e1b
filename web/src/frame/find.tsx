import { useEffect, useRef, useState } from 'react'
import { STAGES } from '../engine/preview.ts'
import { routeTo, useShown } from '../state.ts'

interface Hit {
  text: string
  where: string
  href: string
}

const MOST = 12

/** Find anything: stages, lifts, pieces, activities, checks. */
export function Find({ onClose }: { onClose: () => void }) {
  const [words, setWords] = useState('')
  const hits = useHits(words)
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => dialog.current?.showModal(), [])
  return (
    <dialog ref={dialog} className="finding" aria-label="Find anything" onClose={onClose}>
      <form
        method="dialog"
        onSubmit={() => {
          if (hits[0] !== undefined) location.hash = hits[0].href
        }}
      >
        <label htmlFor="find" className="small quiet">
          Find a lift, a piece, an activity, a check
        </label>
        <input id="find" value={words} onChange={(e) => setWords(e.target.value)} style={{ width: '100%' }} />
      </form>
      <ul style={{ listStyle: 'none', padding: 0, margin: '8px 0 0' }}>
        {hits.map((hit) => (
          <li key={hit.href + hit.text} style={{ padding: '4px 0' }}>
            <a href={hit.href} onClick={() => dialog.current?.close()}>
              {hit.text}
            </a>{' '}
            <span className="small quiet">{hit.where}</span>
          </li>
        ))}
      </ul>
    </dialog>
  )
}

function useHits(words: string): Hit[] {
  const { summary } = useShown()
  const wanted = words
    .toLowerCase()
    .split(/\s+/)
    .filter((w) => w !== '')
  if (wanted.length === 0) return []
  const all: Hit[] = [
    ...STAGES.map((s) => ({ text: s, where: 'stage', href: routeTo(s) })),
    ...summary.lifts.map((l) => ({ text: `${l.name}, ${l.kind}`, where: `lift ${l.id}`, href: routeTo('lift', l.id) })),
    ...summary.pieces.map((p) => ({ text: p.name, where: `piece ${p.id}`, href: routeTo('mass') })),
    ...summary.activities.map((a) => ({ text: a.name, where: `activity ${a.id}`, href: routeTo('programme') })),
    ...summary.checks.map((c) => ({
      text: `${c.subjectName}: ${c.title}`,
      where: `check, ${c.stage}`,
      href: c.stage === 'lift' ? routeTo('lift', c.subject) : routeTo(c.stage),
    })),
  ]
  return all.filter((hit) => wanted.every((w) => `${hit.text} ${hit.where}`.toLowerCase().includes(w))).slice(0, MOST)
}
