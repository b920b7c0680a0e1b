import { useState } from 'react'
import { useSelected } from '../shared.ts'
import { useShown } from '../state.ts'

const FIRST = 6

/** Paths beside the longest one that would drive the restart next: how much each may lose, from where to where. */
export function NearPaths() {
  const { summary } = useShown()
  const { set } = useSelected()
  const { nearPaths = [], activities } = summary
  const [all, setAll] = useState(false)
  if (nearPaths.length === 0) return null
  const shown = all ? nearPaths : nearPaths.slice(0, FIRST)
  const link = (id: string) => (
    <button type="button" className="link" onClick={() => set({ selected: `/programme/activities/${id}` })}>
      {activities.find((a) => a.id === id)?.name ?? id}
    </button>
  )
  return (
    <section>
      <h2>What would drive the restart next</h2>
      <ul className="small">
        {shown.map(({ float, activities: ids, joins }) => (
          <li key={ids[0]}>
            {(float / 86_400).toFixed(1)} d of float: {link(ids[0] as string)}
            {ids.length > 1 && (
              <>
                {' '}
                to {link(ids.at(-1) as string)}, {ids.length} activities
              </>
            )}
            {joins !== undefined && <>, up to {link(joins)}</>}
          </li>
        ))}
      </ul>
      {nearPaths.length > FIRST && (
        <button type="button" className="link small" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? `only the first ${FIRST}` : `all ${nearPaths.length} paths`}
        </button>
      )}
    </section>
  )
}
