import { EditTable } from '../parts/editTable.tsx'
import { Loads, StepChecks, StepChoice } from '../site/atStep.tsx'
import { Bays } from '../site/bays.tsx'
import { GroundDecisions, OtherForms } from '../site/decisions.tsx'
import { Instruments } from '../site/instruments.tsx'
import { PrintLinks, SitePicture } from '../site/picture.tsx'
import { Ranges } from '../site/ranges.tsx'
import { useGround } from '../site/useGround.ts'
import { useNarrow } from '../site/useNarrow.ts'
import { useShown } from '../state.ts'
import { StageChecks } from './stage.tsx'

/** Whether the ground carries it, at every step. */
export function GroundPage() {
  const { document } = useShown()
  const { bays = {}, ground } = document as {
    bays?: Readonly<Record<string, { name?: string }>>
    ground?: { layers?: Readonly<Record<string, { name: string }>> }
  }
  const view = useGround()
  return (
    <>
      <p className="caution small">
        Soil values are from few holes. Local codes and a licensed engineer decide. A water level that recovers can move
        the base within hours; know the time.
      </p>
      {view === undefined && <p className="quiet">Working out what stands where, at every step.</p>}
      {view !== undefined && (
        <>
          <StepChoice ground={view} />
          <div className="site-columns">
            <SitePicture of="plan" title="Plan of the site" step={view.step}>
              <PrintLinks file="plan" step={view.step} />
            </SitePicture>
            <div>
              <Loads ground={view} />
              <Bays ground={view} />
            </div>
          </div>
          <StepChecks ground={view} />
          <Sections step={view.step} />
          <Shaft step={view.step} />
          <SitePicture of="settlement" title="Settlement along the site" step={view.step}>
            <PrintLinks file="settlement" step={view.step} />
          </SitePicture>
          <SitePicture of="courses" title="Settlement of the bays over the campaign" step={view.step} />
        </>
      )}
      <StageChecks stage="ground" />
      {view !== undefined && (
        <>
          <Instruments ground={view} />
          <Ranges />
          <OtherForms ground={view} />
          <GroundDecisions ground={view} />
        </>
      )}
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

/** The wall as built, stage by stage, and the machine in it, each with its figures and the checks that judge it. */
function Shaft({ step }: { step: string | undefined }) {
  return (
    <>
      <SitePicture of="as-built" title="The wall as built" step={step}>
        <PrintLinks file="shaft" step={step} />
      </SitePicture>
      <SitePicture of="stages" title="Stages of the shaft" step={step} wide />
      <SitePicture of="slide" title="The machine on its way in" step={step} />
      <SitePicture of="cradle" title="The cradle across the drive" step={step} />
      <SitePicture of="jacks" title="Jacks under the shield" step={step} />
      <SitePicture of="charts" title="A load of the step by the charts" step={step} />
    </>
  )
}

/** Side by side where there is room, else one under the other. */
function Sections({ step }: { step: string | undefined }) {
  const links = <PrintLinks file="sections" step={step} />
  if (!useNarrow())
    return (
      <SitePicture of="sections" title="Sections across and along the drive" step={step}>
        {links}
      </SitePicture>
    )
  return (
    <>
      <SitePicture of="along" title="Section along the drive" step={step}>
        {links}
      </SitePicture>
      <SitePicture of="across" title="Section across the drive" step={step} />
    </>
  )
}
