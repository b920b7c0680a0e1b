import { EditTable } from '../parts/editTable.tsx'
import { useShown } from '../state.ts'
import { StageChecks } from './stage.tsx'

/** Whether the ground carries it, at every step. */
export function GroundPage() {
  const { document } = useShown()
  const { bays = {}, ground } = document as {
    bays?: Readonly<Record<string, { name?: string }>>
    ground?: { layers?: Readonly<Record<string, { name: string }>> }
  }
  return (
    <>
      <p className="caution small">
        Soil values are from few holes. Local codes and a licensed engineer decide. A water level that recovers can move
        the base within hours; know the time.
      </p>
      <StageChecks stage="ground" />
      <EditTable
        caption="Laydown bays"
        rows={Object.entries(bays).map(([id, b]) => ({ id, pointer: `/bays/${id}`, name: b.name ?? id }))}
        columns={[
          { heading: 'Allowable pressure', below: '/allowable', right: true },
          { heading: 'Level', below: '/level', right: true },
          { heading: 'Construction', below: '/construction' },
        ]}
      />
      <EditTable
        caption="Ground layers"
        rows={Object.entries(ground?.layers ?? {}).map(([id, l]) => ({
          id,
          pointer: `/ground/layers/${id}`,
          name: l.name,
        }))}
        columns={[
          { heading: 'Top', below: '/top', right: true },
          { heading: 'Bottom', below: '/bottom', right: true },
          { heading: 'Unit weight', below: '/unitWeight', right: true },
          { heading: 'Friction angle', below: '/phi', right: true },
          { heading: 'Modulus', below: '/young', right: true },
        ]}
      />
    </>
  )
}
