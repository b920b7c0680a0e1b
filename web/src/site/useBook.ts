import { lastLetter, letterAfter } from '@shieldwright/engine/model/issueLetter.ts'
import { at } from '@shieldwright/engine/working/pointer.ts'
import { useCallback, useEffect, useState } from 'react'
import { useHostJob, wordsOf } from '../parts/hostJob.ts'
import { useShown } from '../state.ts'

/** A campaign book that went out. */
export interface IssuedView {
  on: string
  by: string
  revision: number
  since?: string
  sheets: number
  file: string
  note?: string
}

/** A book as the host made it. */
export interface BookView {
  sheets: number
  file: string
  /** Bytes. */
  size: number
}

/** What a book was asked for with. */
export interface BookRequestView {
  letter: string
  date: string
  revision: string
  since?: { name: string }
}

/** Issues of the campaign book, the making of the next one, and putting it on record. */
export function useBook() {
  const { document } = useShown()
  const issued = (at(document, '/issuedBooks') ?? {}) as Readonly<Record<string, IssuedView>>
  const last = lastLetter(Object.keys(issued))
  const { kept, running, fault, run, cancel } = useHostJob<BookView, BookRequestView>('book')
  const { problem, record } = useRecord(kept?.id)
  const isOnRecord = kept !== undefined && issued[kept.request.letter]?.file === kept.result.file
  return {
    issued,
    last,
    next: letterAfter(last),
    made: kept,
    isOnRecord,
    running,
    fault: fault ?? problem,
    run,
    cancel,
    record,
  }
}

function useRecord(job: string | undefined) {
  const { act } = useShown()
  const [problem, setProblem] = useState<string>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was said of one book is not said of the next
  useEffect(() => setProblem(undefined), [job])
  const record = useCallback(
    (note: string): Promise<void> => {
      setProblem(undefined)
      return act.hosted(async () => {
        const headers = { 'content-type': 'application/json' }
        const sent = { method: 'POST', headers, body: JSON.stringify({ note }) }
        const answer = await fetch(`/api/jobs/${job}/issue`, sent).catch(() => undefined)
        const told = await answer?.json().catch(() => undefined)
        if (answer?.ok) return told?.revision
        setProblem(wordsOf(told?.problems) ?? 'no answer from the host')
        return undefined
      })
    },
    [act, job],
  )
  return { problem, record }
}

/** A revision with a name. */
export interface NamedView {
  name: string
  revision: number
}

interface Beside {
  baselines?: readonly NamedView[]
  attachments?: readonly { hash: string }[]
}

/** What of the store a book can be made from, and which files of issues lie in it. */
export function useKeptBeside() {
  const { revision } = useShown()
  const [kept, setKept] = useState<{ named: readonly NamedView[]; files: ReadonlySet<string> }>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again for each revision
  useEffect(() => {
    const ended = new AbortController()
    const read = (path: string): Promise<Beside> =>
      fetch(path, { signal: ended.signal }).then((answer) => (answer.ok ? answer.json() : {}))
    Promise.all([read('/api/baselines'), read('/api/attachments')])
      .then(([{ baselines = [] }, { attachments = [] }]) =>
        setKept({ named: baselines, files: new Set(attachments.map(({ hash }) => hash)) }),
      )
      .catch(() => undefined)
    return () => ended.abort()
  }, [revision])
  return kept
}
