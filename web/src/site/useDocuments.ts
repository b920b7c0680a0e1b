import { useEffect, useState } from 'react'
import { useShown } from '../state.ts'
import type { DocumentView } from './view.ts'

/** Everything that can be put on paper; the last list stays until the next is there. */
export function useDocuments(): readonly DocumentView[] | undefined {
  const { client, summary } = useShown()
  const [documents, setDocuments] = useState<readonly DocumentView[]>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again when the project changes
  useEffect(() => {
    let here = true
    client.ask('documents', {}).then((answer) => here && setDocuments(answer))
    return () => {
      here = false
    }
  }, [client, summary])
  return documents
}

/** What would be printed on a document that is issued now. */
export interface IssueView {
  revision: number
  contentHash: string
  date: string
}

/** Revision and content as the host prints them on paper; undefined until it has answered. */
export function useIssue(): IssueView | undefined {
  const { revision } = useShown()
  const [issue, setIssue] = useState<IssueView>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again for each revision
  useEffect(() => {
    const ended = new AbortController()
    fetch('/api/report', { signal: ended.signal })
      .then((answer) => (answer.ok ? answer.json() : undefined))
      .then(setIssue)
      .catch(() => undefined)
    return () => ended.abort()
  }, [revision])
  return issue
}
