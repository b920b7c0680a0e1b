import { useCallback, useEffect, useRef, useState } from 'react'

/** A job of the host as it stands. */
export interface HostJob<Result, Request = unknown> {
  id: string
  request: Request
  revision: number
  state: 'waiting' | 'running' | 'done' | 'refused' | 'cancelled' | 'broken'
  progress?: { done: number; of: number }
  result?: Result
  problems?: readonly Said[]
}

interface Said {
  found: string
  expected: string
}

const STATES = ['waiting', 'running', 'done', 'refused', 'cancelled', 'broken'] as const

/** Still to end: it waits for a worker where several share a database. */
const isAtWork = ({ state }: HostJob<unknown>): boolean => state === 'running' || state === 'waiting'

/** What kept something from being done, in words; undefined where nothing is told. */
export const wordsOf = (problems: readonly Said[] | undefined): string | undefined =>
  problems?.map(({ found, expected }) => `${found}; expected ${expected}`).join(', ')

/**
 * A long computation of the host: asked for, followed to its end, cancelled.
 *
 * @param remembered name under which this tab keeps which job it follows, so that it is found again on coming back
 */
export function useHostJob<Result, Request = unknown>(remembered?: string) {
  const [job, setJob] = useState<HostJob<Result, Request>>()
  const [kept, setKept] = useState<HostJob<Result, Request> & { result: Result }>()
  const [fault, setFault] = useState<string>()
  const events = useRef<EventSource>(undefined)
  const take = useCallback((next: HostJob<Result, Request>): void => {
    setJob(next)
    if (next.result !== undefined) setKept({ ...next, result: next.result })
    if (next.state === 'broken' || next.state === 'refused') setFault(wordsOf(next.problems) ?? 'the job broke')
  }, [])
  const follow = useCallback(
    (id: string): void => {
      events.current?.close()
      const source = new EventSource(`/api/jobs/${id}/events`)
      events.current = source
      for (const name of STATES)
        source.addEventListener(name, (event) => {
          const next = JSON.parse((event as MessageEvent<string>).data) as HostJob<Result, Request>
          take(next)
          if (!isAtWork(next)) source.close()
        })
    },
    [take],
  )
  useEffect(() => {
    const known = remembered === undefined ? undefined : jobFollowed(remembered)
    if (known !== undefined) follow(known)
    return () => events.current?.close()
  }, [remembered, follow])
  const run = useCallback(
    async (request: object): Promise<void> => {
      setFault(undefined)
      const answer = await sentJob<HostJob<Result, Request>>(request)
      if (typeof answer === 'string') return setFault(answer)
      take(answer)
      if (remembered !== undefined) followedFrom(remembered, answer.id)
      follow(answer.id)
    },
    [take, follow, remembered],
  )
  const cancel = useCallback((): void => {
    if (job !== undefined) void fetch(`/api/jobs/${job.id}`, { method: 'DELETE' })
  }, [job])
  const running = job !== undefined && isAtWork(job) ? (job.progress ?? { done: 0, of: 1 }) : undefined
  return { job, kept, running, fault, run, cancel }
}

/** A job that was taken, or why it was not. */
async function sentJob<Job>(request: object): Promise<Job | string> {
  try {
    const headers = { 'content-type': 'application/json' }
    const response = await fetch('/api/jobs', { method: 'POST', headers, body: JSON.stringify(request) })
    const answer = await response.json()
    return response.ok ? answer : (wordsOf(answer.problems) ?? `answer ${response.status}`)
  } catch {
    return 'no answer from the host'
  }
}

const nameOf = (remembered: string): string => `shieldwright.job.${remembered}`

function jobFollowed(remembered: string): string | undefined {
  try {
    return sessionStorage.getItem(nameOf(remembered)) ?? undefined
  } catch {
    return undefined // Storage is shut: the job is found again only while its page is open.
  }
}

function followedFrom(remembered: string, id: string): void {
  try {
    sessionStorage.setItem(nameOf(remembered), id)
  } catch {
    // Storage is shut or full: see above.
  }
}
