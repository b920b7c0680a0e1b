import { lazy, Suspense } from 'react'
import { EditTable } from '../parts/editTable.tsx'
import { useShown } from '../state.ts'

/** Drawing in space is the heaviest part of the page: it comes only when this page is opened. */
const Space = lazy(() => import('../scene/space.tsx').then((m) => ({ default: m.Space })))

/** The machine in its shaft, and the figures that place it. */
export function ModelPage() {
  const { document } = useShown()
  const machine = (document as { machine?: unknown }).machine
  return (
    <>
      <Suspense fallback={<div className="space" />}>
        <Space />
      </Suspense>
      {machine !== undefined && (
        <EditTable
          caption="Pose of the machine"
          rows={[{ id: 'pose', pointer: '/machine/pose', name: 'Machine frame in the site frame' }]}
          columns={[
            { heading: 'x', below: '/origin/0', right: true },
            { heading: 'y', below: '/origin/1', right: true },
            { heading: 'z', below: '/origin/2', right: true },
            { heading: 'Roll', below: '/roll', right: true },
            { heading: 'Nose up', below: '/pitch', right: true },
            { heading: 'Yaw left', below: '/yaw', right: true },
          ]}
        />
      )}
    </>
  )
}
