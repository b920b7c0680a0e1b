import { applyPatch, type Patch, patchBetween } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { useCallback, useEffect, useMemo, useState } from 'react'
import { type EngineClient, engineClient } from './engine/client.ts'
import type { Summary } from './engine/protocol.ts'
import { readKept, sendChange } from './host.ts'
import { useRisk } from './risk.ts'
import { CommonProvider, commonStore } from './shared.ts'
import { type LastEdit, type Light, type Route, routeOf, ShownProvider, type Trial } from './state.ts'
import { Workbench } from './workbench.tsx'

interface Held {
  document: unknown
  revision: number
  summary: Summary
}

/** Opens the kept project, holds it, and hands it to the page with what can be done to it. */
export function App() {
  const client = useMemo(engineClient, [])
  const common = useMemo(commonStore, [])
  const [held, setHeld] = useState<Held>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [trial, setTrial] = useState<Trial>()
  const [last, setLast] = useState<LastEdit>()
  const [refused, setRefused] = useState<readonly Problem[]>([])
  const [system, setSystem] = useState<UnitSystem>('SI')
  const [light, setLight] = useLight()
  const risk = useRisk(held)
  const route = useRoute()

  useEffect(() => {
    open(client).then((opened) => ('held' in opened ? setHeld(opened.held) : setProblems(opened.problems)))
  }, [client])

  const tryOut = useCallback(
    (patch: Patch, what: string) => {
      client.ask('preview', { patch }).then((preview) => setTrial({ patch, what, preview }))
    },
    [client],
  )
  const send = useCallback(
    async (edit: Trial) => {
      if (held === undefined) return
      const sent = await sendChange(held.revision, edit.patch, edit.what)
      if ('problems' in sent) return setRefused(sent.problems)
      const kept = await client.ask('keep', { patch: edit.patch })
      const after = applyPatch(held.document, edit.patch)
      if (kept.summary === undefined || !('document' in after)) return setRefused(kept.problems)
      setRefused([])
      setLast({ what: edit.what, preview: edit.preview, undo: patchBetween(after.document, held.document) })
      setHeld({ document: after.document, revision: sent.revision, summary: kept.summary })
      setTrial(undefined)
    },
    [client, held],
  )
  const undo = useCallback(async () => {
    if (last === undefined) return
    const preview = await client.ask('preview', { patch: last.undo })
    await send({ patch: last.undo, what: `undone: ${last.what}`, preview })
  }, [client, last, send])
  const act = useMemo(
    () => ({
      setSystem,
      setLight,
      tryOut,
      keep: () => trial && trial.preview.problems.length === 0 && send(trial),
      discard: () => setTrial(undefined),
      undo,
      runRisk: risk.run,
      cancelRisk: risk.cancel,
    }),
    [tryOut, trial, send, undo, setLight, risk.run, risk.cancel],
  )

  if (problems.length > 0) return <Refusal problems={problems} />
  if (held === undefined) return <p className="sheet">Reading the project and deriving every consequence.</p>
  return (
    <ShownProvider value={{ client, ...held, system, light, trial, last, ...risk.shown, refused, route, act }}>
      <CommonProvider value={common}>
        <Workbench />
      </CommonProvider>
    </ShownProvider>
  )
}

type Opened = { held: Held } | { problems: readonly Problem[] }

async function open(client: EngineClient): Promise<Opened> {
  const kept = await readKept()
  if ('problems' in kept) return kept
  const opened = await client.ask('open', { document: kept.document })
  return opened.summary === undefined ? { problems: opened.problems } : { held: { ...kept, summary: opened.summary } }
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

function useLight(): [Light, (light: Light) => void] {
  const [light, setLight] = useState<Light>('day')
  useEffect(() => {
    document.documentElement.dataset.light = light
  }, [light])
  return [light, setLight]
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
