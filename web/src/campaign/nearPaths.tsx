import './progress.css'
import type { Summary } from '../engine/protocol.ts'
import { useSelected } from '../shared.ts'
import { useShown } from '../state.ts'

type Path = NonNullable<Summary['nearPaths']>[number]

const DAY = 86_400

/** So many are in sight at once; the rest opens below them. */
const FIRST = 5

/** Paths beside the longest one that would drive the restart next: how much each may lose, and every activity on it. */
export function NearPaths() {
  const { nearPaths = [] } = useShown().summary
  if (nearPaths.length === 0) return null
  const more = nearPaths.slice(FIRST)
  return (
    <section className="near-paths">
      <h2>What would drive the restart next</h2>
      <p className="small quiet">{nearPaths.length} paths of little float, the tightest first</p>
      <Paths paths={nearPaths.slice(0, FIRST)} />
      {more.length > 0 && (
        <details className="small">
          <summary>{more.length} more</summary>
          <Paths paths={more} />
        </details>
      )}
    </section>
  )
}

const Paths = ({ paths }: { paths: readonly Path[] }) => (
  <ul className="small">
    {paths.map((path) => (
      <li key={path.activities[0]}>
        <NearPath path={path} />
      </li>
    ))}
  </ul>
)

function NearPath({ path: { float, work, activities, leaves, joins } }: { path: Path }) {
  return (
    <details>
      <summary>
        {(float / DAY).toFixed(1)} d of float, {(work / DAY).toFixed(1)} d of work:{' '}
        <Name id={activities[0] as string} />
        {activities.length > 1 && (
          <>
            {' '}
            to <Name id={activities.at(-1) as string} />, {activities.length} activities
          </>
        )}
      </summary>
      <ol>
        {activities.map((id) => (
          <li key={id}>
            <Link id={id} />
          </li>
        ))}
      </ol>
      {leaves !== undefined && (
        <p>
          It leaves the driving path, or a tighter one, after <Link id={leaves} />.
        </p>
      )}
      {joins !== undefined && (
        <p>
          It joins again before <Link id={joins} />.
        </p>
      )}
    </details>
  )
}

function Name({ id }: { id: string }) {
  const { activities } = useShown().summary
  return <>{activities.find((a) => a.id === id)?.name ?? id}</>
}

function Link({ id }: { id: string }) {
  const { set } = useSelected()
  return (
    <button type="button" className="link" onClick={() => set({ selected: `/programme/activities/${id}` })}>
      <Name id={id} />
    </button>
  )
}
