import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { type FormEvent, useState } from 'react'
import { useShown } from '../state.ts'
import { keptView, readView, type SavedView, viewsIn } from './savedView.ts'

interface ViewsToolOf {
  /** The picture as it is now, but for its name. */
  now: () => Omit<SavedView, 'name'> | undefined
  onView: (view: SavedView) => void
}

/** Views that are kept in the project: each chosen or taken out by a press, and the present one kept under a name. */
export function ViewsTool({ now, onView }: ViewsToolOf) {
  const { document, act, readOnly } = useShown()
  const [name, setName] = useState('')
  const views = Object.entries(viewsIn(document))
  const save = (event: FormEvent): void => {
    event.preventDefault()
    const picture = now()
    if (picture === undefined || name.trim() === '') return
    act.tryOut(keptView(document, { ...picture, name: name.trim() }), `view “${name.trim()}” kept`)
    setName('')
  }
  const remove = (id: string, what: string): void =>
    act.tryOut([{ op: 'remove', path: pointerOf('views', id) }], `view “${what}” taken out`)
  return (
    <section className="views-tool" aria-label="Saved views">
      <div className="small quiet">Saved views</div>
      {views.length > 0 && (
        <ul>
          {views.map(([id, written], i) => (
            <li key={id}>
              <button
                type="button"
                className="link"
                aria-keyshortcuts={i < 9 ? String(i + 1) : undefined}
                onClick={() => onView(readView(written))}
              >
                {written.name}
              </button>
              {i < 9 && <kbd className="small quiet">{i + 1}</kbd>}
              <button
                type="button"
                className="link small"
                aria-label={`Take out view ${written.name}`}
                disabled={readOnly !== undefined}
                onClick={() => remove(id, written.name)}
              >
                take out
              </button>
            </li>
          ))}
        </ul>
      )}
      <form onSubmit={save}>
        <input
          className="view-name"
          aria-label="Name of this view"
          placeholder="name of this view"
          value={name}
          maxLength={200}
          disabled={readOnly !== undefined}
          onChange={(e) => setName(e.target.value)}
        />
        <button type="submit" disabled={readOnly !== undefined || name.trim() === ''}>
          Save
        </button>
      </form>
    </section>
  )
}
