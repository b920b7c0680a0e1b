import type { ScenarioTable } from '@shieldwright/engine'
import { useCallback, useEffect, useRef, useState } from 'react'

/** Runs of each scenario. */
export const SCENARIO_RUNS = 2000

interface State {
  id: string
  revision: number
  state: 'waiting' | 'running' | 'done' | 'refused' | 'cancelled' | 'broken'
  progress?: { done: number; of: number }
  result?: ScenarioTable
  problems?: readonly { found: string; expected: string }[]
}

/** Still to end: it waits for a worker where several share a database. */
const isAtWork = ({ state }: State): boolean => state === 'running' || state === 'waiting'

/** The table of scenarios as the host works it out: asked for, followed, cancelled. */
export function useScenarioJob() {
  const [state, setState] = useState<State>()
  const [kept, setKept] = useState<{ table: ScenarioTable; revision: number }>()
  const [fault, setFault] = useState<string>()
  const events = useRef<EventSource>(undefined)
  useEffect(() => () => events.current?.close(), [])
  const take = useCallback((next: State): void => {
    setState(next)
    if (next.result !== undefined) setKept({ table: next.result, revision: next.revision })
    if (next.state === 'broken' || next.state === 'refused')
      setFault(next.problems?.map(({ found, expected }) => `${found}; ${expected}`).join(', ') ?? 'the job broke')
  }, [])
  const run = useCallback(async (): Promise<void> => {
    setFault(undefined)
    const body = JSON.stringify({ kind: 'scenarios', runs: SCENARIO_RUNS, seed: 1 })
    const response = await fetch('/api/jobs', { method: 'POST', headers: { 'content-type': 'application/json' }, body })
    const answer = await response.json()
    if (!response.ok) {
      setFault(answer.problems?.map(({ found }: { found: string }) => found).join(', ') ?? `answer ${response.status}`)
      return
    }
    take(answer)
    events.current?.close()
    const source = new EventSource(`/api/jobs/${answer.id}/events`)
    events.current = source
    for (const name of ['waiting', 'running', 'done', 'refused', 'cancelled', 'broken'])
      source.addEventListener(name, (event) => {
        const next = JSON.parse((event as MessageEvent<string>).data) as State
        take(next)
        if (!isAtWork(next)) source.close()
      })
  }, [take])
  const cancel = useCallback((): void => {
    if (state !== undefined) void fetch(`/api/jobs/${state.id}`, { method: 'DELETE' })
  }, [state])
  const running = state !== undefined && isAtWork(state) ? (state.progress ?? { done: 0, of: 1 }) : undefined
  return { kept, running, fault, run, cancel }
}
