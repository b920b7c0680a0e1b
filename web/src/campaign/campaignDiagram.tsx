import { useState } from 'react'
import { useWidth } from '../parts/width.ts'
import { useShown } from '../state.ts'
import './campaign.css'
import { Field } from './field.tsx'
import { CampaignTable } from './table.tsx'
import { Tools, type Wishes } from './tools.tsx'
import { useCampaign } from './useCampaign.ts'
import type { Window } from './zoom.ts'

const MM_OF_PX = 25.4 / 96
/** Narrower than this nobody reads it, px: a phone shows a part of it at a time. */
const NARROWEST = 900

/** The campaign on one sheet as wide as the page: where every piece is, what comes next, how late we are, when we restart. */
export function CampaignDiagram() {
  const { system, risk } = useShown()
  const [box, room] = useWidth<HTMLDivElement>(1392)
  const width = Math.max(NARROWEST, room)
  const [window, setWindow] = useState<Window>()
  const [wishes, setWishes] = useState<Wishes>({ isEven: false, glass: true, dotted: 'earlier', asTable: false })
  const simulated = risk === undefined ? undefined : { p10: risk.p10, p50: risk.p50, p80: risk.p80, p90: risk.p90 }
  const { view, isAsked } = useCampaign({
    width: Math.floor(width * MM_OF_PX),
    ...window,
    isEven: wishes.isEven,
    glass: wishes.glass,
    system,
    dotted: wishes.dotted,
    ...(simulated === undefined ? {} : { simulated }),
  })
  return (
    <section className="campaign" aria-label="Campaign diagram">
      <div className="titled">
        <h2>Campaign diagram</h2>
        {view !== undefined && <span className="small quiet">{view.restart}</span>}
      </div>
      <div ref={box}>
        {view !== undefined && (
          <Field
            view={view}
            width={width}
            isThrough={room < NARROWEST}
            window={window}
            setWindow={setWindow}
            tools={(onMove) => (
              <Tools
                wishes={wishes}
                set={(change) => setWishes((w) => ({ ...w, ...change }))}
                isZoomed={window !== undefined}
                hasEarlier={view.hasEarlier}
                agreed={view.agreed}
                onMove={onMove}
                onFit={() => setWindow(undefined)}
                system={system}
                simulated={simulated === undefined ? undefined : Object.values(simulated)}
              />
            )}
          />
        )}
        {view === undefined && !isAsked && (
          <p className="quiet" style={{ minHeight: width * 0.75 }}>
            working: the campaign is being drawn
          </p>
        )}
        {view === undefined && isAsked && (
          <p>No campaign to draw yet: it needs a programme, and lifts in its order with a bay each.</p>
        )}
        {view !== undefined && wishes.asTable && <CampaignTable view={view} />}
      </div>
    </section>
  )
}
