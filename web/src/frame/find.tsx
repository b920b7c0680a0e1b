import './find.css'
import { useEffect, useMemo, useState } from 'react'
import type { FormulaView } from '../engine/protocol.ts'
import { useCommonStore } from '../shared.ts'
import { useShown } from '../state.ts'
import { Dialog } from './dialog.tsx'
import { type Entry, type Group, indexOf, search } from './findIndex.ts'

/** Find anything by id or by words; arrows choose, Enter opens it where it stands, selected. */
export function Find({ onClose }: { onClose: () => void }) {
  const [words, setWords] = useState('')
  const [at, setAt] = useState(0)
  const groups = useGroups(words)
  const { set } = useCommonStore()
  const hits = groups.flatMap((g) => g.hits)
  const open = (entry: Entry | undefined): void => {
    if (entry === undefined) return
    if (entry.select !== undefined) set({ selected: entry.select })
    location.hash = entry.href
    onClose()
  }
  const onKey = (event: React.KeyboardEvent): void => {
    if (event.key === 'ArrowDown') setAt(Math.min(at + 1, hits.length - 1))
    else if (event.key === 'ArrowUp') setAt(Math.max(at - 1, 0))
    else if (event.key === 'Enter') open(hits[at])
    else return
    event.preventDefault()
  }
  return (
    <Dialog name="Find anything" onClose={onClose}>
      <label htmlFor="find" className="small quiet">
        An id or words: part, piece, lift, joint, service, bay, system, layer, activity, delivery, check, formula,
        setting
      </label>
      <input
        id="find"
        className="finder"
        role="combobox"
        aria-expanded={hits.length > 0}
        aria-controls="found"
        aria-activedescendant={hits[at] === undefined ? undefined : `found-${at}`}
        autoComplete="off"
        spellCheck={false}
        value={words}
        onChange={(e) => {
          setWords(e.target.value)
          setAt(0)
        }}
        onKeyDown={onKey}
      />
      <Found groups={groups} at={at} onOpen={open} />
      <p className="small quiet" role="status">
        {words.trim() !== '' && hits.length === 0 ? `Nothing here is called “${words.trim()}”.` : ''}
      </p>
    </Dialog>
  )
}

function Found({ groups, at, onOpen }: { groups: readonly Group[]; at: number; onOpen: (entry: Entry) => void }) {
  const firstOf = groups.map((_, i) => groups.slice(0, i).reduce((n, g) => n + g.hits.length, 0))
  useEffect(() => document.getElementById(`found-${at}`)?.scrollIntoView({ block: 'nearest' }), [at])
  return (
    <div id="found" role="listbox" aria-label="Found" className="found">
      {groups.map(({ kind, hits, more }, g) => (
        // biome-ignore lint/a11y/useSemanticElements: a listbox may hold groups; a fieldset may not stand in it
        <div key={kind} role="group" aria-label={kind}>
          <div className="kind" aria-hidden="true">
            {kind}
            {more > 0 && ` · ${more} more`}
          </div>
          {hits.map((entry, i) => {
            const n = (firstOf[g] ?? 0) + i
            return (
              // biome-ignore lint/a11y/useKeyWithClickEvents lint/a11y/useFocusableInteractive: the field above holds the focus and the keys
              <div
                key={entry.id}
                id={`found-${n}`}
                role="option"
                aria-selected={n === at}
                className="hit"
                onClick={() => onOpen(entry)}
              >
                <span>{entry.name || entry.id}</span> <span className="small quiet">{entry.id}</span>
              </div>
            )
          })}
        </div>
      ))}
    </div>
  )
}

const NONE: readonly FormulaView[] = []

function useGroups(words: string): Group[] {
  const { client, document, summary } = useShown()
  const [formulas, setFormulas] = useState(NONE)
  useEffect(() => {
    let here = true
    client.ask('formulas', {}).then((all) => here && setFormulas(all))
    return () => {
      here = false
    }
  }, [client])
  const index = useMemo(() => indexOf(document, summary, formulas), [document, summary, formulas])
  return useMemo(() => search(index, words), [index, words])
}
