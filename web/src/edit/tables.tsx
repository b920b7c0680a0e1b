import './tables.css'
import { at } from '@shieldwright/engine/working/pointer.ts'
import { useEffect, useRef } from 'react'
import { routeTo, useShown } from '../state.ts'
import { type Collection, isCollection, type Single } from './collections/collection.ts'
import { GROUPS, tableAt, tableHolding } from './collections.ts'
import { Fields } from './detail.tsx'
import { CollectionTable } from './table.tsx'

/** Everything in the project file that is a decision or a figure: one table or form at a time. */
export function ProjectTables() {
  const { route } = useShown()
  const address = `/${route.item ?? 'parts'}`
  const chosen = tableAt(address) ?? tableHolding(address) ?? (tableAt('/parts') as Collection)
  const nav = useRef<HTMLElement>(null)
  useEffect(() => {
    // a line that is asked for brings itself into sight
    if (route.item !== undefined && tableAt(`/${route.item}`) !== undefined)
      nav.current?.scrollIntoView({ block: 'start' })
  }, [route.item])
  return (
    <>
      <nav ref={nav} className="tables" aria-label="Tables of the project">
        {GROUPS.map((group) => (
          <div key={group.title}>
            <span className="quiet">{group.title}</span>
            {group.of.map((of) => (
              <TableLink key={of.at} of={of} isHere={of.at === chosen.at} />
            ))}
          </div>
        ))}
      </nav>
      {isCollection(chosen) ? (
        <CollectionTable key={chosen.at} of={chosen.at} />
      ) : (
        <SingleForm key={chosen.at} single={chosen} />
      )}
    </>
  )
}

function TableLink({ of, isHere }: { of: Collection | Single; isHere: boolean }) {
  const { document } = useShown()
  const held = at(document, of.at)
  const count = typeof held === 'object' && held !== null && isCollection(of) ? Object.keys(held).length : undefined
  return (
    <a href={routeTo('model', of.at.slice(1))} aria-current={isHere ? 'true' : undefined}>
      {of.title}
      {count !== undefined && <span className="small quiet"> {count}</span>}
    </a>
  )
}

function SingleForm({ single }: { single: Single }) {
  const { document, trial, act } = useShown()
  const stands = at(trial?.document ?? document, single.at) !== undefined
  return (
    <section>
      <h2>{single.title}</h2>
      {stands ? (
        <Fields pointer={single.at} name={single.title.toLowerCase()} without={single.without ?? []} />
      ) : (
        <p>
          Not given yet.{' '}
          <button
            type="button"
            className="link"
            onClick={() => act.tryOut([{ op: 'add', path: single.at, value: {} }], `${single.title} begun`)}
          >
            Begin it
          </button>
        </p>
      )}
    </section>
  )
}
