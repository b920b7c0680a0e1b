import { lazy, Suspense } from 'react'
import { ProjectTables } from '../edit/tables.tsx'

/** Drawing in space is the heaviest part of the page: it comes only when this page is opened. */
const Space = lazy(() =>
  import('../scene/space.tsx').then(
    (m) => ({ default: m.Space }),
    () => ({ default: NoSpace }),
  ),
)

const NoSpace = () => <p>The view in space cannot be loaded; reload the page. The tables work without it.</p>

/** The machine in its shaft, and every figure and decision that the project file holds. */
export function ModelPage() {
  return (
    <>
      <Suspense fallback={<div className="space" />}>
        <Space />
      </Suspense>
      <ProjectTables />
    </>
  )
}
