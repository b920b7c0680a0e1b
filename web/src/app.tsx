import { ENGINE_VERSION } from '@shieldwright/engine/version.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { useEffect, useMemo, useState, useSyncExternalStore } from 'react'
import { projectStore } from './edit/project.ts'
import { tabRecall } from './edit/recall.ts'
import { engineClient } from './engine/client.ts'
import { useLight, useUnits } from './frame/light.ts'
import { host } from './host.ts'
import { useRisk } from './risk/jobs.ts'
import { CommonProvider, commonStore } from './shared.ts'
import { type Route, routeOf, ShownProvider } from './state.ts'
import { Workbench } from './workbench.tsx'

function openedHere() {
  const client = engineClient()
  return { client, project: projectStore({ client, host, recall: tabRecall, engine: ENGINE_VERSION }) }
}

/** Opens the kept project, holds it, and hands it to the page with what can be done to it. */
export function App() {
  const { client, project } = useMemo(openedHere, [])
  const common = useMemo(commonStore, [])
  const { held, problems, history, ...state } = useSyncExternalStore(project.subscribe, project.now)
  const [system, setSystem] = useUnits()
  const [light, setLight] = useLight()
  const risk = useRisk(held)
  const route = useRoute()
  useEffect(() => project.open(), [project])
  const act = useMemo(
    () => ({ ...project, setSystem, setLight, ...risk.act }),
    [project, setSystem, setLight, risk.act],
  )

  if (problems.length > 0) return <Refusal problems={problems} />
  if (held === undefined) return <p className="sheet">Reading the project and deriving every consequence.</p>
  const words = { undo: history.done.at(-1)?.what, redo: history.undone.at(-1)?.what }
  return (
    <ShownProvider value={{ client, ...held, ...state, history: words, system, light, ...risk.shown, route, act }}>
      <CommonProvider value={common}>
        <Workbench />
      </CommonProvider>
    </ShownProvider>
  )
}

function useRoute(): Route {
  const [route, setRoute] = useState(() => routeOf(location.hash))
  useEffect(() => {
    const follow = (): void => setRoute(routeOf(location.hash))
    addEventListener('hashchange', follow)
    return () => removeEventListener('hashchange', follow)
  }, [])
  return route
}

function Refusal({ problems }: { problems: readonly Problem[] }) {
  return (
    <main className="sheet">
      <h1 className="large">The project cannot be read</h1>
      <ul>
        {problems.map((p) => (
          <li key={p.pointer + p.expected}>
            <span className="strong">{p.pointer || 'whole file'}</span>: found {p.found}, expected {p.expected}
            {p.example === undefined ? '' : `, such as “${p.example}”`}
          </li>
        ))}
      </ul>
    </main>
  )
}
