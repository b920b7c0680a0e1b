import { useState } from 'react'
import { Consequences } from './frame/consequences.tsx'
import { Find } from './frame/find.tsx'
import { Head } from './frame/head.tsx'
import { useKeys } from './frame/keys.ts'
import { LastEdit } from './frame/lastEdit.tsx'
import { Line } from './frame/line.tsx'
import { FirstPage } from './pages/first.tsx'
import { GroundPage } from './pages/ground.tsx'
import { LiftPage } from './pages/lift.tsx'
import { MassPage } from './pages/mass.tsx'
import { ModelPage } from './pages/model.tsx'
import { ProgrammePage } from './pages/programme.tsx'
import { ReportPage } from './pages/report.tsx'
import { RiskPage } from './pages/risk.tsx'
import { StripPage } from './pages/strip.tsx'
import { useShown } from './state.ts'

const PAGES: Readonly<Record<string, () => React.ReactNode>> = {
  project: FirstPage,
  model: ModelPage,
  mass: MassPage,
  strip: StripPage,
  lift: LiftPage,
  ground: GroundPage,
  programme: ProgrammePage,
  risk: RiskPage,
  report: ReportPage,
}

/** The page: head, line of stages, the last edit, and the stage one is at. */
export function Workbench() {
  const { route } = useShown()
  const [finding, setFinding] = useState(false)
  useKeys(() => setFinding(true))
  const Page = PAGES[route.stage] ?? FirstPage
  return (
    <>
      <Head onFind={() => setFinding(true)} />
      <Line />
      <LastEdit />
      <main className="sheet">
        <Consequences />
        <Page />
      </main>
      {finding && <Find onClose={() => setFinding(false)} />}
    </>
  )
}
