import { Activities } from '../campaign/activities.tsx'
import { CampaignDiagram } from '../campaign/campaignDiagram.tsx'
import { Deliveries } from '../campaign/deliveries.tsx'
import { NearPaths } from '../campaign/nearPaths.tsx'
import { Progress } from '../campaign/progress.tsx'
import { CollectionTable } from '../edit/table.tsx'
import { EditTable } from '../parts/editTable.tsx'
import { useShown } from '../state.ts'
import { Restart } from './first.tsx'
import { StageChecks } from './stage.tsx'

interface Typed {
  programme?: { activities?: Readonly<Record<string, { name: string }>> }
}

/** The plan: when we restart, the campaign on one sheet, what is delivered when, every activity, what was typed, and other ways to do it. */
export function ProgrammePage() {
  const { document } = useShown()
  const { programme } = document as Typed
  const activities = Object.entries(programme?.activities ?? {})
  return (
    <>
      <Restart />
      <CampaignDiagram />
      <Progress />
      <Deliveries />
      <Activities />
      <NearPaths />
      {programme !== undefined && (
        <EditTable
          caption="Days that the plan goes by"
          rows={[{ id: 'programme', pointer: '/programme', name: 'Programme' }]}
          columns={[
            { heading: 'Start', below: '/start' },
            { heading: 'Today', below: '/today' },
            { heading: 'Data date', below: '/dataDate' },
            { heading: 'Restart promised', below: '/promised' },
          ]}
        />
      )}
      <EditTable
        caption="Typed durations, working days"
        rows={activities.map(([id, a]) => ({ id, pointer: `/programme/activities/${id}`, name: a.name }))}
        columns={[
          { heading: 'Least', below: '/days/0', right: true },
          { heading: 'Most likely', below: '/days/1', right: true },
          { heading: 'Greatest', below: '/days/2', right: true },
          { heading: 'Calendar', below: '/calendar' },
        ]}
      />
      <CollectionTable of="/programme/ways" />
      <CollectionTable of="/programme/adjustments" />
      <CollectionTable of="/programme/setUps" />
      <StageChecks stage="programme" />
    </>
  )
}
