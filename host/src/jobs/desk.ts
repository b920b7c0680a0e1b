import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { type JobProject, type Progress, type Running, startJob } from './job.ts'
import type { JobRequest } from './kinds.ts'
import { type JobResults, jobContent } from './results.ts'
import { resultJson } from './view.ts'

/** A job as it stands, for whoever asks. */
export interface JobState {
  id: string
  request: JobRequest
  /** The revision whose content it works on; an answer to an older one is stale. */
  revision: number
  state: 'waiting' | 'running' | 'done' | 'refused' | 'cancelled' | 'broken'
  progress?: Progress
  result?: unknown
  problems?: readonly Problem[]
}

/** The jobs of a server. */
export interface JobDesk {
  /** Starts a job; one whose result is kept has ended at once. Undefined when as many are asked for as may be. */
  start(project: JobProject, revision: number, request: JobRequest): Promise<JobState | undefined>
  stateOf(id: string): Promise<JobState | undefined>
  /** Asks a job to stop; false when there is none of that id. */
  cancel(id: string): Promise<boolean>
  /** Calls back at every change of a job until it has ended; the way back takes the listener off. */
  watch(id: string, listener: (state: JobState) => void): () => void
  /** Lets go of everything that ends with this process. */
  close(): Promise<void>
}

const MOST_RUNNING = 2
/** Ended jobs whose result is kept. */
const MOST_KEPT = 20

interface Held {
  state: JobState
  /** Absent where the result was kept. */
  job?: Running
  listeners: Set<(state: JobState) => void>
}

/** Whether it will not change any more. */
export const hasEnded = ({ state }: JobState): boolean => state !== 'running' && state !== 'waiting'

/**
 * A desk in this process, whose jobs end with it.
 *
 * @param results where results are kept by their content; made afresh each time where there is none
 */
export function jobDesk(results?: JobResults): JobDesk {
  const held = new Map<string, Held>()
  let last = 0
  const change = (id: string, more: Partial<JobState>): void => {
    const one = held.get(id)
    if (one === undefined) return
    one.state = { ...one.state, ...more }
    for (const listener of one.listeners) listener(one.state)
  }
  const isRunning = ({ state }: Held): boolean => state.state === 'running'
  const forgetOldest = (): void => {
    const ended = [...held].filter(([, one]) => !isRunning(one))
    for (const [id] of ended.slice(0, Math.max(0, ended.length - MOST_KEPT))) held.delete(id)
  }
  return {
    async start(project, revision, request) {
      const content = jobContent(project, request)
      const known = await results?.of(content)
      if (known !== undefined) {
        const state: JobState = { id: `job-${++last}`, request, revision, state: 'done', result: known }
        held.set(state.id, { state, listeners: new Set() })
        forgetOldest()
        return state
      }
      if ([...held.values()].filter(isRunning).length >= MOST_RUNNING) return undefined
      const id = `job-${++last}`
      const job: Running = startJob(project, request, (progress) => change(id, { progress }))
      const state: JobState = { id, request, revision, state: 'running' }
      held.set(id, { state, job, listeners: new Set() })
      void ending(job).then(async (end) => {
        if (end.state === 'done') await results?.keep(content, end.result).catch((error) => console.error(error))
        change(id, end)
        forgetOldest()
      })
      return state
    },
    stateOf: async (id) => held.get(id)?.state,
    cancel: async (id) => {
      held.get(id)?.job?.cancel()
      return held.has(id)
    },
    watch: (id, listener) => {
      held.get(id)?.listeners.add(listener)
      return () => void held.get(id)?.listeners.delete(listener)
    },
    close: async () => {
      for (const { job } of held.values()) job?.cancel()
    },
  }
}

/** How a job ended; a stopped one may have a result all the same. A broken one is told as that, and on standard error; the server goes on. */
export async function ending(job: Running): Promise<Pick<JobState, 'state' | 'result' | 'problems'>> {
  try {
    const outcome = await job.outcome
    if ('cancelled' in outcome) return { state: 'cancelled' }
    if ('problems' in outcome) return { state: 'refused', problems: outcome.problems }
    return { state: outcome.stopped ? 'cancelled' : 'done', result: resultJson(outcome.result) }
  } catch (error) {
    console.error(error)
    return { state: 'broken' }
  }
}
