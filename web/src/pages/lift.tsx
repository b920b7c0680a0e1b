import '../lift/lift.css'
import { useEffect } from 'react'
import type { LiftView } from '../engine/protocol.ts'
import { AboutPivot } from '../lift/aboutPivot.tsx'
import { Decisions } from '../lift/decisions.tsx'
import { Hanging } from '../lift/hanging.tsx'
import { Heading } from '../lift/heading.tsx'
import { Holders } from '../lift/holders.tsx'
import { LiftChecks } from '../lift/liftChecks.tsx'
import { MassSum } from '../lift/massSum.tsx'
import { OrderStrip } from '../lift/orderStrip.tsx'
import { Rigged } from '../lift/rigged.tsx'
import { ClassOfLift, Steps, Wind } from '../lift/theDay.tsx'
import { Turning } from '../lift/turning.tsx'
import { useLiftPage } from '../lift/useLiftPage.ts'
import { WayInTime } from '../lift/wayInTime.tsx'
import { Works } from '../lift/works.tsx'
import { useSelected } from '../shared.ts'
import { Signatures } from '../signing/signatures.tsx'
import { useShown } from '../state.ts'

/** One lift at a time: what hangs on the hook, how it hangs, what is tightest, and what stops it. */
export function LiftPage() {
  const { summary, route } = useShown()
  const { selected } = useSelected()
  const named = summary.lifts.find((l) => l.id === route.item)
  const lift = named ?? summary.lifts.find((l) => `/lifts/${l.id}` === selected) ?? summary.lifts[0]
  return lift === undefined ? <NoLift /> : <OneLift lift={lift} />
}

function NoLift() {
  return (
    <p>
      No lift is planned yet. A lift needs a piece, a lifting system and a hook: begin with the pieces under{' '}
      <a href="#model">model</a>.
    </p>
  )
}

function OneLift({ lift }: { lift: LiftView }) {
  const page = useLiftPage(lift.id)
  useSelecting(lift.id)
  return (
    <>
      <OrderStrip chosen={lift.id} />
      <Heading lift={lift} page={page} />
      {page !== undefined && (
        <div className="three lift-page" data-lift={page.id}>
          <div>
            <MassSum lift={lift} page={page} />
            <Wind page={page} />
            <WayInTime key={`way ${lift.id}`} way={page.way} span={page.span} />
            <ClassOfLift page={page} />
          </div>
          <div>
            <Hanging lift={lift} page={page} />
            <Decisions lift={lift} />
            <Works page={page} />
            <Signatures kind="lift-sheet" subject={lift.id} title="Signatures on its sheet" signsAs="lift engineer" />
          </div>
          <div>
            <LiftChecks page={page} />
            {page.turn !== undefined && <Turning key={lift.id} turn={page.turn} checks={page.checks} lift={lift.id} />}
            {page.pivot !== undefined && <AboutPivot pivot={page.pivot} />}
            <Rigged page={page} />
            <Holders page={page} />
          </div>
        </div>
      )}
      {page !== undefined && <Steps page={page} />}
    </>
  )
}

/** The lift that is looked at is what is selected everywhere. */
function useSelecting(id: string): void {
  const { selected, set } = useSelected()
  const pointer = `/lifts/${id}`
  // biome-ignore lint/correctness/useExhaustiveDependencies: selected once when the page turns to it, not held against others
  useEffect(() => {
    if (selected !== pointer) set({ selected: pointer })
  }, [pointer])
}
