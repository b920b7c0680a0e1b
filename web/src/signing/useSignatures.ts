import type { SignedKind } from '@shieldwright/engine'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { useCallback, useEffect, useState } from 'react'
import { useShown } from '../state.ts'

/** Demand, capacity and verdict of a check; absent where unknown. */
export interface StateView {
  demand?: number
  capacity?: number
  verdict: string
}

/** A figure that is no longer what was signed; values in SI. */
export interface MovedView {
  check: string
  title: string
  unit: string
  before?: StateView
  after?: StateView
}

/** A signature as the host tells of it. */
export interface SignatureView {
  id: string
  kind: SignedKind
  subject: string
  role: string
  revision: number
  at: string
  by: string
  statement: string
  document?: string
  state: 'stands' | 'overtaken' | 'withdrawn'
  changes: readonly { what: string; at: string; before: string; after: string }[]
  overtakenBy?: { revision: number; at: string; by: string; why: string }
  moved: readonly MovedView[]
  withdrawn?: { at: string; by: string; why: string }
}

/** Signatures on one thing, and what signs it. */
export interface Signatures {
  /** The latest first; undefined until the host has answered. */
  all: readonly SignatureView[] | undefined
  /** Signs what stands; what kept it from being signed, or nothing. */
  sign: (role: string, statement: string) => Promise<readonly Problem[]>
  /** Takes one back, which leaves it in the record; what kept it from that, or nothing. */
  withdraw: (id: string, why: string) => Promise<readonly Problem[]>
}

/** What is signed on a lift's sheet or a record of the project, read again after every change. */
export function useSignatures(kind: SignedKind, subject: string): Signatures {
  const { revision } = useShown()
  const [all, setAll] = useState<readonly SignatureView[]>()
  const read = useCallback(
    (signal?: AbortSignal) =>
      fetch('/api/signatures', signal ? { signal } : {})
        .then((answer) => (answer.ok ? answer.json() : { signatures: [] }))
        .then(({ signatures }: { signatures: readonly SignatureView[] }) =>
          setAll(signatures.filter((s) => s.kind === kind && s.subject === subject)),
        )
        .catch(() => undefined),
    [kind, subject],
  )
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again for each revision
  useEffect(() => {
    const ended = new AbortController()
    void read(ended.signal)
    return () => ended.abort()
  }, [read, revision])
  const send = async (path: string, body: object): Promise<readonly Problem[]> => {
    const sent = { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }
    const answer = await fetch(`/api/signatures${path}`, sent).catch(() => undefined)
    if (answer?.ok) {
      await read()
      return []
    }
    const told = await answer?.json().catch(() => undefined)
    return told?.problems ?? [{ pointer: '', found: 'no answer from the host', expected: 'it to be kept' }]
  }
  return {
    all,
    sign: (role, statement) => send('', { kind, subject, role, statement, revision }),
    withdraw: (id, why) => send(`/${id}/withdraw`, { why }),
  }
}
