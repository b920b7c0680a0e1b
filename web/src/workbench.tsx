import { lazy, Suspense, useCallback, useState } from 'react'
import { Consequences, useHangs } from './frame/consequences.tsx'
import { DropElsewhere } from './frame/dropElsewhere.tsx'
import { Find } from './frame/find.tsx'
import { Head } from './frame/head.tsx'
import { useFocusBack, useKeys } from './frame/keys.ts'
import { KeysList } from './frame/keysList.tsx'
import { LastEdit } from './frame/lastEdit.tsx'
import { Line } from './frame/line.tsx'
import { useStaysPut } from './frame/staysPut.ts'
import { FirstPage } from './pages/first.tsx'
import { GroundPage } from './pages/ground.tsx'
import { LiftPage } from './pages/lift.tsx'
import { MassPage } from './pages/mass.tsx'
import { ModelPage } from './pages/model.tsx'
import { ProgrammePage } from './pages/programme.tsx'
import { ReportPage } from './pages/report.tsx'
import { RiskPage } from './pages/risk.tsx'
import { StripPage } from './pages/strip.tsx'
import { QuestionsList } from './questions/questionsList.tsx'
import { isBeginning } from './start/beginning.ts'
import { StartEmpty } from './start/startEmpty.tsx'
import { routeTo, useShown } from './state.ts'

/** Only a project without lifts needs it. */
const Guide = lazy(() => import('./start/guide.tsx').then((m) => ({ default: m.Guide })))

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
  const { route, trial, document } = useShown()
  const [over, setOver] = useState<'find' | 'keys' | 'questions'>()
  const close = useCallback(() => setOver(undefined), [])
  const opens = {
    onFind: () => setOver('find'),
    onQuestions: () => setOver('questions'),
    onKeys: () => setOver('keys'),
  }
  useKeys(opens)
  useFocusBack(trial !== undefined)
  const hangs = useHangs()
  useStaysPut()
  const Page = PAGES[route.stage] ?? FirstPage
  const isFirst = Page === FirstPage
  return (
    <>
      <Head {...opens} />
      <div className="standing">
        <Line />
        {hangs ? <Consequences /> : <LastEdit />}
        <DropElsewhere />
      </div>
      <main className="sheet" data-at={routeTo(route.stage, route.item)}>
        {isFirst && isBeginning(document) ? (
          <Suspense fallback={<p>Reading what the first lift needs.</p>}>
            <Guide />
          </Suspense>
        ) : (
          <Page />
        )}
        {isFirst && <StartEmpty />}
      </main>
      {over === 'find' && <Find onClose={close} />}
      {over === 'questions' && <QuestionsList onClose={close} />}
      {over === 'keys' && <KeysList onClose={close} />}
    </>
  )
}
